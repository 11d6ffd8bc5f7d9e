import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

// Every word that the page shows stands in src/web/text: there it is found, mended and one day translated.

const root = path.resolve(__dirname, '../../src/web');
const files = readdirSync(root, { recursive: true, withFileTypes: true })
  .filter(({ name }) => name.endsWith('.tsx'))
  .map(({ parentPath, name }) => path.join(parentPath, name));

/** What a screen reader reads out, or an eye sees. */
const shownAttributes = new Set([
  'alt',
  'aria-label',
  'aria-description',
  'aria-roledescription',
  'aria-valuetext',
  'description',
  'label',
  'placeholder',
  'title',
]);

/** Two letters side by side: a unit, a mark or a separator is none. */
const isWord = (text: string) => /\p{L}{2}/u.test(text);

function wordsIn(file: string, source = readFileSync(file, 'utf8')): string[] {
  const found: string[] = [];
  const tree = ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true, ts.ScriptKind.TSX);
  const note = (node: ts.Node, text: string) => {
    if (!isWord(text)) return;
    const { line } = tree.getLineAndCharacterOfPosition(node.getStart());
    found.push(`${path.basename(file)}:${line + 1}: ${text.trim()}`);
  };
  /** The literals of which an expression is made, whichever branch is taken; what is passed to a function is not shown. */
  const noteLiterals = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node)) note(node, node.text);
    else if (ts.isTemplateExpression(node)) {
      for (const part of [node.head, ...node.templateSpans.map(({ literal }) => literal)]) {
        note(node, part.text);
      }
      for (const { expression } of node.templateSpans) noteLiterals(expression);
    } else if (ts.isConditionalExpression(node)) {
      noteLiterals(node.whenTrue);
      noteLiterals(node.whenFalse);
    } else if (ts.isBinaryExpression(node)) {
      const isComparison = /^[=!]==?$|^[<>]=?$/.test(node.operatorToken.getText());
      if (!isComparison) [node.left, node.right].forEach(noteLiterals);
    } else if (ts.isParenthesizedExpression(node)) noteLiterals(node.expression);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isJsxText(node)) note(node, node.text);
    else if (ts.isJsxExpression(node) && !ts.isJsxAttribute(node.parent) && node.expression) {
      noteLiterals(node.expression);
    } else if (
      ts.isJsxAttribute(node) &&
      shownAttributes.has(node.name.getText()) &&
      node.initializer
    ) {
      noteLiterals(
        ts.isJsxExpression(node.initializer)
          ? (node.initializer.expression ?? node.initializer)
          : node.initializer,
      );
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

test('words are found wherever they are shown', () => {
  const source = `
    const a = <p title="One here">Two here {isIt ? 'three' : \`four \${n}\`} {kind === 'warm' && <b aria-label={'five here'} />}</p>;
    const b = <Button variant="default" className={n > 1 ? 'row' : 'rows'}>{words.six} · {n} °C</Button>;`;
  expect(wordsIn('sample.tsx', source)).toEqual([
    'sample.tsx:2: One here',
    'sample.tsx:2: Two here',
    'sample.tsx:2: three',
    'sample.tsx:2: four',
    'sample.tsx:2: five here',
  ]);
});

test('no screen has words of its own', () => {
  expect(files.length).toBeGreaterThan(50);
  expect(files.flatMap((file) => wordsIn(file))).toEqual([]);
});
