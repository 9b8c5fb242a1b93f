/** Entry of the functions bundle, which Excel loads with no page around it: nothing but the catalogue. */
import './missing-members';
import { registerFunctions, type CustomFunctionsRuntime } from './functions';

declare const CustomFunctions: CustomFunctionsRuntime;

registerFunctions(CustomFunctions);
