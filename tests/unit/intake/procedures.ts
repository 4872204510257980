import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { procedureSchema, type Procedure } from '../../../src/lib/model';

const read = (id: string): Procedure =>
  procedureSchema.parse(
    parse(readFileSync(new URL(`../../../content/procedures/${id}.yaml`, import.meta.url), 'utf8')),
  );

export const phaco = read('phaco');
export const sics = read('sics');
export const procedures = [phaco, sics];
