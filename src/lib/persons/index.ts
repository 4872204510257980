export { personIn, type LooksLike, type TextKind } from './person-in-text';
export { nameIn } from './names-in-text';
export { isPlainWord } from './plain-words';
export { recordNumberIn } from './numbers-in-text';
