import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** `test` where these commands are installed, else a test that is skipped: its name should say what it needs. */
export function testWith(...commands: string[]): jest.It {
  return commands.every(isInstalled) ? test : test.skip;
}

function isInstalled(command: string): boolean {
  return !('error' in spawnSync(command, ['--version'], { stdio: 'ignore' }));
}

/** The words of a PDF, page by page, as poppler's pdftotext reads them. */
export function wordsOf(pdf: Buffer): string[] {
  return withFolder((folder) => {
    const file = path.join(folder, 'printed.pdf');
    writeFileSync(file, pdf);
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    return text.split('\f').slice(0, -1);
  });
}

/** What every QR code of a PDF says once it is printed at 300 dots per inch: rendered by poppler's pdftoppm, read by zbarimg. */
export function scanned(pdf: Buffer): string[] {
  return withFolder((folder) => {
    const file = path.join(folder, 'printed.pdf');
    writeFileSync(file, pdf);
    execFileSync('pdftoppm', ['-r', '300', '-gray', file, path.join(folder, 'page')]);
    const pages = readdirSync(folder).filter((name) => name.endsWith('.pgm'));
    const read = ['--quiet', '--raw', '-Sdisable', '-Sqrcode.enable'];
    const { stdout } = spawnSync('zbarimg', [...read, ...pages.sort()], {
      cwd: folder,
      encoding: 'utf8',
    });
    return stdout.split('\n').filter((line) => line !== '');
  });
}

function withFolder<Answer>(work: (folder: string) => Answer): Answer {
  const folder = mkdtempSync(path.join(tmpdir(), 'paper-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
