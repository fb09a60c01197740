/** Round values for an axis that covers a range: low and high widened to whole steps. */
export type ValueAxis = {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  readonly y: (value: number) => number;
};

/** An axis of about four round steps (1, 2, 5 × 10ⁿ) over a range, drawn upward from `bottomY` to `topY`. */
export function valueAxis(lowest: number, highest: number, bottomY: number, topY: number, steps = 4): ValueAxis {
  const span = Math.max(highest - lowest, Math.abs(highest) * 0.02, 1e-6);
  const power = 10 ** Math.floor(Math.log10(span / steps));
  const step = ([1, 2, 5, 10].find((one) => one * power >= span / steps) ?? 10) * power;
  const low = Math.floor(lowest / step) * step;
  const high = Math.max(Math.ceil(highest / step) * step, low + step);
  const ticks: number[] = [];
  for (let count = 0; low + count * step <= high + step / 1000; count++) ticks.push(Number((low + count * step).toPrecision(12)));
  const y = (value: number): number => Math.round((bottomY + ((value - low) / (high - low || 1)) * (topY - bottomY)) * 100) / 100;
  return { low, high, ticks, y };
}
