/** How long to wait, in ms, before a file that does not block is asked again. */
const NAP = 10;

/** Reads from or writes to a pipe that has nothing, or no room, yet: tries again until it has. */
export function patiently<T>(act: () => T): T {
  for (;;) {
    try {
      return act();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, NAP);
    }
  }
}
