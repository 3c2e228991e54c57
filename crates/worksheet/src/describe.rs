//! A worksheet's definition for programs.

use serde_json::{Value, json};

use crate::definition::{Input, Need, Shape, Worksheet};

impl Worksheet {
    /// Id, title, inputs with units and allowed ranges, outputs, source and an example.
    #[must_use]
    pub fn to_json(&self) -> Value {
        let inputs: Vec<Value> = self.inputs.iter().map(input).collect();
        let outputs: Vec<Value> = self
            .outputs
            .iter()
            .map(|o| json!({"key": o.key, "meaning": o.meaning, "unit": o.unit.kind().si().symbol()}))
            .collect();
        let example: std::collections::BTreeMap<_, _> =
            self.example.iter().map(|(k, v)| (*k, *v)).collect();
        json!({
            "id": self.id,
            "title": self.title,
            "inputs": inputs,
            "outputs": outputs,
            "source": self.source,
            "example": example,
        })
    }
}

fn input(input: &Input) -> Value {
    let (unit, allowed) = match input.shape {
        Shape::Quantity(unit, range) => {
            (input.bare.unwrap_or(unit.kind().si()).symbol(), json!(range.describe(unit)))
        }
        Shape::Choice(words) => ("", json!(words)),
    };
    let default = match input.need {
        Need::Default(text, _) => Some(text),
        _ => None,
    };
    json!({
        "key": input.key,
        "symbol": input.symbol,
        "meaning": input.meaning,
        "unit": unit,
        "allowed": allowed,
        "required": matches!(input.need, Need::Required),
        "default": default,
    })
}
