import { astmE308Checks } from "./astmE308Checks.js";
import type { CheckGroup } from "./check.js";
import { cie15Checks } from "./cie15Checks.js";
import { differenceChecks } from "./differenceChecks.js";
import { filmChecks } from "./filmChecks.js";
import { metamerismChecks } from "./metamerismChecks.js";
import { mixtureChecks } from "./mixtureChecks.js";
import { strdChecks } from "./strdChecks.js";
import { surfaceChecks } from "./surfaceChecks.js";

/** Everything that others have published and that can be worked out here, in the order in which light meets it. */
export function publishedChecks(): readonly CheckGroup[] {
  return [
    ...surfaceChecks(),
    ...filmChecks(),
    ...mixtureChecks(),
    ...cie15Checks(),
    ...astmE308Checks(),
    ...differenceChecks(),
    ...metamerismChecks(),
    ...strdChecks(),
  ];
}
