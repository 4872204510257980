export * from './port';
export { everythingSchema } from './everything-schema';
export { openMemoryStore } from './memory';
export { openDiskStore as openStore } from './open-disk';
