import { StaticMarkup } from '@/app/_markup/static-markup';
import { showDay } from '@/lib/units/calendar-day';
import { type LimbPicture, type PictureLimb, type PictureStrip, pictureInWords } from './limb-picture';
import { OneLimb } from './one-limb';
import { outlineLayout, STRIP_STEP } from './outline-layout';
import { round } from './outline-path';
import { OutlinePatterns } from './outline-patterns';
import { OutlineTape } from './outline-tape';
import styles from './picture.module.css';
import { stretchFor } from './stretched-change';
import { patternsInWords, TightnessStrip } from './tightness-strip';

type Band = { readonly low: number; readonly high: number };

/** The limb drawn from its own ladder: outlines, earlier visits, the tape between the limbs, figures and tightness. Server-rendered. */
export function LimbOutline({
  picture,
  band,
  name,
  heightPx = 590,
  widthPx = 548,
}: {
  picture: LimbPicture;
  band: Band;
  name: string;
  heightPx?: number;
  widthPx?: number;
}) {
  const layout = outlineLayout(picture, heightPx, widthPx);
  const { frame, width, height, tapeX } = layout;
  const stretch = Math.max(
    1,
    ...picture.limbs.flatMap((limb) => limb.earlier.map((line) => stretchFor(limb.girthsMm, filled(line.girthsMm, limb), frame.scale))),
  );
  return (
    <figure className={styles.limbFigure}>
      <div className="scroll-across">
        <StaticMarkup
          as="svg"
          className={styles.limbOutline}
          viewBox={`0 0 ${round(width)} ${round(height)}`}
          width={round(width)}
          height={round(height)}
          role="img"
          aria-label={pictureInWords(picture)}
        >
          <OutlinePatterns name={name} />
          <OutlineTape picture={picture} frame={frame} centreX={tapeX} fromX={layout.fromX} toX={layout.toX} />
          {layout.limbs.map(({ limb, centreX, figuresX, anchor, stripX, strips }) => (
            <g key={limb.side}>
              <OneLimb
                limb={limb}
                strips={strips}
                picture={picture}
                frame={{ ...frame, centreX }}
                figuresX={figuresX}
                anchor={anchor}
                stretch={stretch}
                name={name}
              />
              {strips.map((strip: PictureStrip, index) => (
                <TightnessStrip
                  key={strip.piece}
                  strip={strip}
                  frame={frame}
                  x={stripX + (figuresX < centreX ? -1 : 1) * index * STRIP_STEP}
                  band={strip.band}
                  name={name}
                  named={index === 0}
                  anchor={figuresX < centreX ? 'start' : 'end'}
                />
              ))}
            </g>
          ))}
        </StaticMarkup>
      </div>
      <OutlineKey picture={picture} stretch={stretch} band={band} notDrawn={layout.notDrawn} />
    </figure>
  );
}

type KeyProps = { picture: LimbPicture; stretch: number; band: Band; notDrawn: readonly string[] };

function OutlineKey({ picture, stretch, band, notDrawn }: KeyProps) {
  const lines = picture.limbs.flatMap((limb) => limb.earlier);
  const cut = lines.find((line) => line.kind === 'cut from');
  const first = lines.find((line) => line.kind === 'first');
  const worn = picture.limbs.some((limb) => limb.strips.length > 0);
  return (
    <figcaption className={styles.outlineKey}>
      {cut && <span className={styles.key}>{`${showDay(cut.day)}, piece made to this`}</span>}
      {first && <span className={`${styles.key} ${styles.first}`}>{`${showDay(first.day)}, first visit`}</span>}
      <span className={styles.said}>
        As you face the patient. True proportion, girths in {picture.unit === 'in' ? 'inches' : 'centimetres'}
        {stretch > 1 ? `; change since earlier visits drawn ×${stretch} so that it shows` : ''}. Nothing is drawn beyond the tape.
        {worn && ` ${patternsInWords(band)}`}
        {notDrawn.length > 0 && ` Also worn, in the table only: piece ${notDrawn.join(', ')}.`}
      </span>
    </figcaption>
  );
}

function filled(girthsMm: readonly (number | null)[], limb: PictureLimb): number[] {
  return girthsMm.map((girth, rung) => girth ?? (limb.girthsMm[rung] as number));
}
