/** The last line of an answer as a shell would read it, without the name of the program; empty where there is none. */
export function pasted(text: string): readonly string[] {
  const [command] = /masstone (next|record|compare|correct) (.|\\\n)*$/.exec(text.trimEnd()) ?? [""];
  return [...command.replaceAll("\\\n", " ").matchAll(/'((?:[^']|'\\'')*)'|(\S+)/g)]
    .map(([, quoted, plain]) => quoted ?? plain)
    .slice(1);
}
