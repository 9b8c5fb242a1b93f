export * from './define';
export { catalogue, findDefinition } from './catalogue';
