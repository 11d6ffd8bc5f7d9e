import { poolLevels, type PooledLevels } from '../../../../src/core/setting/pooling/pool-levels';
import { pooledQuantile } from '../../../../src/core/setting/pooling/pooled-quantile';

const exact = (...times: number[]) => times.map((time) => ({ lower: time, upper: time }));

function pooledOf(groups: Record<string, number[]>): PooledLevels {
  const levels = Object.keys(groups);
  const answer = poolLevels(
    {
      observations: Object.values(groups).flatMap((times) => exact(...times)),
      covariates: [
        {
          kind: 'factor',
          name: 'source',
          levels,
          values: levels.flatMap((level) => groups[level]!.map(() => level)),
        },
      ],
    },
    'lognormal',
    'source',
  );
  if (answer.kind !== 'estimate') throw new Error(answer.reason);
  return answer;
}

const spread = (middle: number, count: number) =>
  Array.from({ length: count }, (_, i) => middle * Math.exp(0.3 * Math.sin(i * 12.9898)));

test('with many exact log-normal times a median is the mean of the logarithms, with its error', () => {
  const clover = spread(12, 400);
  const logs = clover.map(Math.log);
  const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
  const heather = spread(20, 400);

  const median = pooledQuantile(pooledOf({ clover, heather }), { source: 'clover' }, 0.5);

  // The error of a mean: the spread of a logarithm, 0.3 / sqrt(2), over the root of their number.
  const reach = (1.96 * 0.3) / Math.sqrt(2 * 400);
  if (median.kind !== 'estimate') throw new Error('no estimate');
  expect(Math.log(median.time)).toBeCloseTo(mean, 3);
  expect(Math.log(median.upper / median.time)).toBeCloseTo(reach, 3);
  expect(Math.log(median.time / median.lower)).toBeCloseTo(reach, 3);
});

test('a source with few batches has wider limits, and lies nearer to the others', () => {
  const groups = { clover: spread(12, 60), heather: spread(20, 60), lime: spread(40, 2) };
  const pooled = pooledOf(groups);
  const of = (source: string) => {
    const median = pooledQuantile(pooled, { source }, 0.5);
    if (median.kind !== 'estimate') throw new Error('no estimate');
    return median;
  };

  expect(of('lime').upper / of('lime').lower).toBeGreaterThan(
    of('clover').upper / of('clover').lower,
  );
  expect(of('lime').time).toBeLessThan(Math.sqrt(groups.lime[0]! * groups.lime[1]!));
  expect(of('lime').time).toBeGreaterThan(of('heather').time);
});

test('a share or a confidence that is none is refused', () => {
  const pooled = pooledOf({ clover: spread(12, 9), heather: spread(20, 9) });

  expect(() => pooledQuantile(pooled, { source: 'clover' }, 1)).toThrow(RangeError);
  expect(() => pooledQuantile(pooled, { source: 'clover' }, 0.5, 0)).toThrow(RangeError);
  expect(() => pooledQuantile(pooled, { source: 'oak' }, 0.5)).toThrow(RangeError);
});
