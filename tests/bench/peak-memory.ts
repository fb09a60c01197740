import fs from 'node:fs';

/** The most memory a process of this machine has held, where the system tells. */
export function peakMegabytes(pid: number): string {
  const status = `/proc/${pid}/status`;
  const kilobytes = fs.existsSync(status) ? /VmHWM:\s*(\d+)/.exec(fs.readFileSync(status, 'utf8'))?.[1] : undefined;
  return kilobytes ? (Number(kilobytes) / 1000).toFixed(0) : 'unknown';
}

/** Ticks of the kernel's clock in a second, as `/proc` counts them. Source: proc_pid_stat(5), `sysconf(_SC_CLK_TCK)` on Linux. */
const TICKS = 100;

/** Processor time a process has used since it started, in user and in system, ms. */
export function processorMs(pid: number | undefined): number {
  const fields = fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
  return ((Number(fields[11]) + Number(fields[12])) / TICKS) * 1000;
}
