/** True where the work was done well within the time (milliseconds); false where it failed or was not done yet. */
export async function doneWithin(work: Promise<unknown>, milliseconds: number): Promise<boolean> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<false>((done) => {
    timer = setTimeout(() => done(false), milliseconds);
  });
  const done = work.then(
    () => true,
    () => false,
  );
  try {
    return await Promise.race([done, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** How long, in milliseconds, the service may take at the end to write back and close its files. */
export const closingLimit = 5_000;
