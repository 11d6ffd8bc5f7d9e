import { text } from '../text';

/** The usual cautions, where they matter. */
export function Cautions() {
  return (
    <details className="sheet">
      <summary>{text.frame.cautionsTitle}</summary>
      <ul>
        {text.frame.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </details>
  );
}
