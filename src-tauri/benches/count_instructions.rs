//! Counts what the browser's engine does for an answer: the operators of its wasm, by an interpreter that meters
//! each (wasmi's fuel). Unlike times the counts are the same on every machine and in every run, so that a later state
//! can be held against an earlier one. Usage: `count-instructions FOLDER`, the folder of `engine_bg.wasm`;
//! `cargo xtask bench` runs it.

use serde_json::{Value, json};
use wasmi::{
    CompilationMode, Config, Engine, ExternType, Func, Instance, Linker, Memory, Module, Store, Val,
};

const YARDSTICK: &str = include_str!("../../tests/data/yardstick-53a387c.json");

type Failure = Box<dyn std::error::Error>;

fn main() -> Result<(), Failure> {
    let folder = std::env::args().nth(1).ok_or("which folder holds engine_bg.wasm?")?;
    let bytes = std::fs::read(std::path::Path::new(&folder).join("engine_bg.wasm"))?;
    let job: Value = serde_json::from_str(YARDSTICK)?;
    let mut engine = Counted::new(&bytes)?;

    engine.call("hold_job", &json!({ "job": job, "name": "1" }))?;
    let placed = |east_m: f64, static_kept: &Value| {
        let mut placement = job["placement"].clone();
        placement["mast"] = json!({ "by": "coordinates", "east_m": east_m, "north_m": -2.0 });
        json!({ "held": "1", "placement": placement, "map": { "text_m": 0.5, "static_kept": static_kept } })
    };
    let (first, _) = engine.call("place", &placed(0.0, &Value::Null))?;
    let static_key = first["ok"]["map_static"].clone();
    let south = json!({ "job": job, "height": "raised", "gust_m_per_s": 15.0, "from_deg": 180.0 });
    let whole = json!({ "job": job, "map": { "text_m": 0.5 }, "profile": true, "report": true });
    for (what, operation, request) in [
        ("answer of a drag", "place", placed(0.5, &static_key)),
        ("whole plan", "plan", whole),
        ("one gust from one side", "wind_table", south),
        ("gust limit all round", "wind_capacity", json!({ "job": job })),
    ] {
        let (_, count) = engine.call(operation, &request)?;
        println!("{what:28} {:>12} thousand operators", count / 1000);
    }
    Ok(())
}

/// The engine in the interpreter.
struct Counted {
    store: Store<()>,
    instance: Instance,
    memory: Memory,
}

impl Counted {
    fn new(bytes: &[u8]) -> Result<Self, Failure> {
        let mut config = Config::default();
        // Translated before the first call, so that only what runs is counted.
        config.consume_fuel(true).compilation_mode(CompilationMode::Eager);
        let engine = Engine::new(&config);
        let module = Module::new(&engine, bytes)?;
        let mut store = Store::new(&engine, ());
        store.set_fuel(u64::MAX)?;
        let mut linker = Linker::new(&engine);
        // What it imports serves watched operations and objects of the browser's, of which none is asked here.
        for import in module.imports() {
            let ExternType::Func(kind) = import.ty() else { continue };
            let nothing: Vec<Val> = kind.results().iter().map(|kind| Val::default_for_ty(*kind)).collect();
            let idle = Func::new(&mut store, kind.clone(), move |_, _, results| {
                results.clone_from_slice(&nothing);
                Ok(())
            });
            linker.define(import.module(), import.name(), idle)?;
        }
        let instance = linker.instantiate_and_start(&mut store, &module)?;
        let memory = instance.get_memory(&store, "memory").ok_or("the engine has no memory")?;
        Ok(Self { store, instance, memory })
    }

    /// The answer, and how many instructions it took.
    fn call(&mut self, operation: &str, request: &Value) -> Result<(Value, u64), Failure> {
        let operation = self.text(operation)?;
        let request = self.text(&request.to_string())?;
        let run = self.instance.get_typed_func::<(i32, i32, i32, i32), (i32, i32)>(&self.store, "call")?;
        let before = self.store.get_fuel()?;
        let (at, length) = run.call(&mut self.store, (operation.0, operation.1, request.0, request.1))?;
        let count = before - self.store.get_fuel()?;
        let mut bytes = vec![0; length as usize];
        self.memory.read(&self.store, at as usize, &mut bytes)?;
        let answer: Value = serde_json::from_slice(&bytes)?;
        if answer["ok"].is_null() {
            return Err(format!("refused: {answer}").into());
        }
        Ok((answer, count))
    }

    /// Puts a text into the engine's memory.
    fn text(&mut self, text: &str) -> Result<(i32, i32), Failure> {
        let length = i32::try_from(text.len())?;
        let take = self.instance.get_typed_func::<(i32, i32), i32>(&self.store, "__wbindgen_malloc")?;
        let at = take.call(&mut self.store, (length, 1))?;
        self.memory.write(&mut self.store, at as usize, text.as_bytes())?;
        Ok((at, length))
    }
}
