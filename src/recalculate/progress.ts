const WIDTH = 30;

/** A bar on standard error while a person watches; nothing when the output goes to a file or a program. */
export function progressOf(whole: number, what: string): (finished: number) => void {
  if (!process.stderr.isTTY || whole < 2) return () => {};
  const show = (finished: number) => {
    const filled = Math.round((WIDTH * finished) / whole);
    const bar = "#".repeat(filled) + ".".repeat(WIDTH - filled);
    process.stderr.write(`\r[${bar}] ${finished}/${whole} ${what}`);
    if (finished === whole) process.stderr.write(`\r${" ".repeat(WIDTH + what.length + 20)}\r`);
  };
  show(0);
  return show;
}
