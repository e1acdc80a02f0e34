/** The engine's modules, for type checks before `cargo xtask wasm` has made it; the made ones have types of their own. */
declare module '*/wasm/engine.js' {
  export default function init(from: { module_or_path: string }): Promise<unknown>;
  export function call(operation: string, request_json: string): string;
}
declare module '*/wasm/map.js' {
  export default function init(from: { module_or_path: string }): Promise<unknown>;
  export function call_at_first(operation: string, request_json: string): string | undefined;
}
