export { RivetsView as Body } from './rivets-view';
