import { procedureSchema, type Procedure } from '../../model';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { parseYaml } from './front-matter';

/**
 * Shipped procedures, one YAML file each, in order of file name.
 * @throws ContentError for a file the schema refuses, a file not named after its procedure, or no file at all.
 */
export function readProcedures(files: ContentFiles): Procedure[] {
  const procedures = Object.entries(files).map(([file, text]) => {
    const procedure = checked(procedureSchema, parseYaml(text, file), file);
    // The name is how a reader finds the file, and makes two files with one id impossible.
    if (!file.endsWith(`/${procedure.id}.yaml`))
      throw new ContentError(file, 'id', `the file of "${procedure.id}" must be called ${procedure.id}.yaml`);
    return procedure;
  });
  if (procedures.length === 0) throw new ContentError('content/procedures', 'files', 'no procedure is shipped');
  return procedures;
}
