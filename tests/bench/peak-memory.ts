import fs from 'node:fs';

/** The most memory a process of this machine has held, where the system tells. */
export function peakMegabytes(pid: number): string {
  const status = `/proc/${pid}/status`;
  const kilobytes = fs.existsSync(status) ? /VmHWM:\s*(\d+)/.exec(fs.readFileSync(status, 'utf8'))?.[1] : undefined;
  return kilobytes ? (Number(kilobytes) / 1000).toFixed(0) : 'unknown';
}
