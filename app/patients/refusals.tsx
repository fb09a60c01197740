'use client';

import { useEffect, useRef } from 'react';
import type { PatientErrors } from './read-patient';

/** What has to be mended before the form can be saved: read out at once, each line leading to its field. */
export function Refusals({ errors }: { errors: PatientErrors }) {
  const box = useRef<HTMLDivElement>(null);
  const lines = Object.entries(errors);
  useEffect(() => {
    if (Object.keys(errors).length > 0) box.current?.focus();
  }, [errors]);
  if (lines.length === 0) return null;
  return (
    <div className="refused-box" role="alert" tabIndex={-1} ref={box}>
      <p>
        <b>Nothing was saved yet.</b> {lines.length === 1 ? 'One field needs a look:' : `${lines.length} fields need a look:`}
      </p>
      <ul>
        {lines.map(([field, sentence]) => (
          <li key={field}>
            <a href={`#${field}`}>{sentence}</a>
          </li>
        ))}
      </ul>
    </div>
  );
}
