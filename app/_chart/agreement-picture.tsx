import { StaticMarkup } from '@/app/_markup/static-markup';
import { isNoAnswer } from '@/lib/outcome';
import type { StudyAgreement } from '@/lib/study/study-result';
import styles from './chart.module.css';
import { ValueLines } from './chart-axes';
import { keepApart } from './keep-apart';
import { valueAxis } from './value-axis';

const WIDTH = 440;
const FROM_X = 56;
const TO_X = 330;
const TOP = 12;
const BOTTOM = 170;

type Props = StudyAgreement & { readonly said: string };

/**
 * Differences over means (Bland and Altman): a square a limb, the bias as a line, the limits of agreement dashed, a wash where each of the three may lie. The table
 * beside it has the same figures.
 */
export function AgreementPicture({ differences, agreement, said }: Props) {
  const limits = isNoAnswer(agreement) ? [] : lines(agreement);
  const values = [0, ...differences.map(({ difference }) => difference), ...limits.flatMap(({ at, error }) => [at - error, at + error])];
  const axis = valueAxis(Math.min(...values), Math.max(...values), BOTTOM, TOP);
  const means = differences.map(({ mean }) => mean);
  const across = valueAxis(Math.min(...means), Math.max(...means), FROM_X + 12, TO_X - 12);
  const words = keepApart(
    limits.map(({ at }) => axis.y(at)),
    15,
  );
  return (
    <StaticMarkup
      as="svg"
      className={styles.chart}
      viewBox={`0 0 ${WIDTH} ${BOTTOM + 40}`}
      width={WIDTH}
      height={BOTTOM + 40}
      role="img"
      aria-label={said}
    >
      {limits.map(({ at, error }) => (
        <rect
          key={at}
          className={`${styles.frozenWash} wash`}
          x={FROM_X}
          y={axis.y(at + error)}
          width={TO_X - FROM_X}
          height={Math.max(0, axis.y(at - error) - axis.y(at + error))}
        />
      ))}
      <ValueLines axis={axis} fromX={FROM_X} toX={TO_X} show={showMl} />
      <path className={styles.axisLine} d={`M${FROM_X} ${axis.y(0)}H${TO_X}`} />
      {limits.map(({ at, isBias }, index) => (
        <g key={at}>
          <path className={isBias ? styles.bodyLine : styles.limitLine} d={`M${FROM_X} ${axis.y(at)}H${TO_X}`} />
          <text className={styles.axisText} x={TO_X + 8} y={(words[index] as number) + 4}>
            {`${isBias ? 'bias' : 'limit'} ${showMl(at)} ml`}
          </text>
        </g>
      ))}
      {differences.map(({ limb, mean, difference }) => (
        <rect
          key={limb}
          className={`${styles.valueSquare} ${styles.few}`}
          x={across.y(mean) - 3.5}
          y={axis.y(difference) - 3.5}
          width={7}
          height={7}
        />
      ))}
      {across.ticks
        .filter((_, index) => index % Math.ceil(across.ticks.length / 4) === 0)
        .map((tick) => (
          <text key={tick} className={styles.axisText} x={across.y(tick)} y={BOTTOM + 18} textAnchor="middle">
            {tick.toLocaleString('en')}
          </text>
        ))}
      <text className={styles.axisText} x={TO_X + 8} y={BOTTOM + 18}>
        mean, ml
      </text>
    </StaticMarkup>
  );
}

function lines({ bias, low, high, biasError, limitError }: Exclude<StudyAgreement['agreement'], { noAnswer: string }>) {
  return [
    { at: high, error: 1.96 * limitError, isBias: false },
    { at: bias, error: 1.96 * biasError, isBias: true },
    { at: low, error: 1.96 * limitError, isBias: false },
  ];
}

/** A difference with its sign: +28, −9, 0. */
export function showMl(ml: number): string {
  const whole = Math.abs(ml) < 10 ? Number(ml.toFixed(1)) : Math.round(ml);
  return `${whole > 0 ? '+' : whole < 0 ? '−' : ''}${Math.abs(whole)}`;
}
