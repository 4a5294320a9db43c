import { type Fields, type RecordShape, record } from "./record.js";
import type { Shape } from "./shape.js";

type Known<Out, Base> = Extract<keyof Out, keyof Base>;

/**
 * A record like another, such as the file of it, with some fields added or put in the place of others.
 * @__NO_SIDE_EFFECTS__
 */
export function extended<Out extends object, In, Base>(
  base: Shape<Base> & { readonly fields: object; readonly format: string | undefined },
  fields: Omit<Fields<Out, In>, Known<Out, Base>> & Partial<Fields<Out, In>>,
): RecordShape<Out, In> {
  const { format } = base;
  return record<Out, In>(
    { ...base.fields, ...fields } as Fields<Out, In>,
    format === undefined ? {} : { format },
  );
}
