//! A finished worksheet as JSON: inputs and outputs by key, each with its SI unit.

use serde::ser::{Serialize, SerializeMap, Serializer};

use crate::definition::Shape;
use crate::run::{Out, Value, Worked};

struct ValueAndUnit<'a, T>(T, &'a str);

impl<T: Serialize> Serialize for ValueAndUnit<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(2))?;
        map.serialize_entry("value", &self.0)?;
        map.serialize_entry("unit", self.1)?;
        map.end()
    }
}

struct Inputs<'a>(&'a Worked);
struct Outputs<'a>(&'a Worked);

impl Serialize for Inputs<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for (input, value) in self.0.definition.inputs.iter().zip(&self.0.values) {
            match (input.shape, value) {
                (Shape::Quantity(unit, _), Some(Value::Number(v))) => {
                    map.serialize_entry(input.key, &ValueAndUnit(v, unit.kind().si().symbol()))?;
                }
                (_, Some(Value::Word(w))) => {
                    map.serialize_entry(input.key, &ValueAndUnit(w, ""))?;
                }
                _ => {}
            }
        }
        map.end()
    }
}

impl Serialize for Outputs<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for output in self.0.definition.outputs {
            match self.0.outputs.iter().find(|(k, _)| *k == output.key) {
                Some((_, Out::Number(v))) => {
                    let unit = output.unit.kind().si().symbol();
                    map.serialize_entry(output.key, &ValueAndUnit(v, unit))?;
                }
                Some((_, Out::Word(w))) => {
                    map.serialize_entry(output.key, &ValueAndUnit(w, ""))?;
                }
                None => {}
            }
        }
        map.end()
    }
}

impl Serialize for Worked {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(6))?;
        map.serialize_entry("id", self.definition.id)?;
        map.serialize_entry("inputs", &Inputs(self))?;
        map.serialize_entry("outputs", &Outputs(self))?;
        map.serialize_entry("working", &self.working)?;
        map.serialize_entry("assumptions", &self.assumptions)?;
        map.serialize_entry("source", &self.definition.source)?;
        map.end()
    }
}
