import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { projectFolder } from '../src/platform/project-folder';
import { makeSeason } from './season';
import { seasonCsv } from './season-csv';
import { csvReferenceDay, demoSeed } from './seed';

/** node dist/demo/write-csv.js: writes test/data/demo-batches.csv anew. */
const file = 'test/data/demo-batches.csv';
writeFileSync(path.join(projectFolder, file), seasonCsv(makeSeason(demoSeed, csvReferenceDay)));
console.log(`Wrote ${file}.`);
