/** The engine's module, for type checks before `cargo xtask wasm` has made it; the made one has types of its own. */
declare module '*/wasm/engine.js' {
  export default function init(): Promise<unknown>;
  export function call(operation: string, request_json: string): string;
}
