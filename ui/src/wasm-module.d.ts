/** The engine's module, for type checks before `cargo xtask wasm` has made it; the made one has types of its own. */
declare module '*/wasm/engine.js' {
  export default function init(from: { module_or_path: string }): Promise<unknown>;
  export function call(operation: string, request_json: string): string;
}
