import { existsSync } from 'node:fs';
import path from 'node:path';

/** The project's folder: the nearest one above this file that holds package.json, whether this runs from src or from dist. */
export const projectFolder: string = above(__dirname);

function above(folder: string): string {
  if (existsSync(path.join(folder, 'package.json'))) return folder;
  const parent = path.dirname(folder);
  if (parent === folder) throw new Error('package.json was not found above the program.');
  return above(parent);
}
