import { existsSync } from "node:fs";
import { chromium } from "playwright-core";

/** Where a Chromium is looked for: MASSTONE_CHROMIUM first, then where Debian's package and others put it. */
const PLACES = [
  process.env.MASSTONE_CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
];

/** The browser to test in, or undefined; MASSTONE_CHROMIUM that is not there is a mistake, not a reason to skip. */
export function findChromium() {
  const [asked] = PLACES;
  if (asked && !existsSync(asked)) throw new Error(`MASSTONE_CHROMIUM: there is no ${asked}`);
  return PLACES.find((place) => place && existsSync(place));
}

/** A headless browser that talks to nobody but the pages it is given. */
export function launch(executablePath) {
  return chromium.launch({
    executablePath,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}
