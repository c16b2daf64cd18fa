const WIDTH = 30;

/** A bar on standard error while a person watches; nothing when the output goes to a file or a program. */
export function progressOf(whole: number, what: string): (finished: number) => void {
  if (!process.stderr.isTTY) return () => {};
  const started = Date.now();
  let soFar = 0;
  const show = () => {
    const filled = Math.round((WIDTH * soFar) / whole);
    const bar = "#".repeat(filled) + ".".repeat(WIDTH - filled);
    const seconds = Math.round((Date.now() - started) / 1000);
    process.stderr.write(`\r[${bar}] ${soFar}/${whole} ${what}, ${seconds} s `);
  };
  // A single long job has nothing to count, so the seconds go on.
  const clock = setInterval(show, 1000).unref();
  show();
  return (finished) => {
    soFar = finished;
    if (finished < whole) return show();
    clearInterval(clock);
    clearProgress();
  };
}

/** Makes room for a line of output where the bar stands. */
export function clearProgress(): void {
  if (process.stderr.isTTY) process.stderr.write(`\r${" ".repeat(79)}\r`);
}
