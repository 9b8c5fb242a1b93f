export * from './define';
export { catalogue, excelName, findDefinition } from './catalogue';
