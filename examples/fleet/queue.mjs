// What main and workers agree on: the server, the name of the queue, and how long a worker may be silent.
import { env } from "node:process";

export const QUEUE = "masstone-fleet";
/** A path of a socket, or a URL such as redis://host:6379. */
export const connection = () => {
  const server = env.FLEET_REDIS;
  if (!server) throw new Error("FLEET_REDIS names no server");
  const options = { maxRetriesPerRequest: null };
  return server.startsWith("/") ? { path: server, ...options } : { url: server, ...options };
};
/** A slice held by a worker that said nothing for this long goes to another. */
export const SILENT_MS = Number(env.FLEET_SILENT_MS ?? 10_000);
