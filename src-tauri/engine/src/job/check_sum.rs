//! The check sum by which a history says which job it is of.

use serde_json::Value;

/// FNV-1a, 64 bits (Fowler, Noll and Vo; IETF draft-eastlake-fnv, 2 and 5), of the job's text without its history. Against slips,
/// not against forgers.
pub fn check_sum(job: &Value) -> String {
    let hash = canonical(job).bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    format!("{hash:016x}")
}

/// A value as text that does not depend on how its numbers were written or its members ordered.
pub fn canonical(value: &Value) -> String {
    match value {
        // Adding nought makes one nought of the two.
        Value::Number(number) => {
            number.as_f64().map_or_else(|| number.to_string(), |n| format!("{:?}", n + 0.0))
        }
        Value::Array(items) => {
            let items: Vec<String> = items.iter().map(canonical).collect();
            format!("[{}]", items.join(","))
        }
        Value::Object(members) => {
            let mut members: Vec<String> = members
                .iter()
                .map(|(name, value)| format!("{}:{}", Value::from(name.as_str()), canonical(value)))
                .collect();
            members.sort();
            format!("{{{}}}", members.join(","))
        }
        other => other.to_string(),
    }
}
