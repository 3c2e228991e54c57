//! Every field of the crossing file, defined once.
//!
//! The reader, the JSON schema, the commented starter and the field reference all come from these
//! definitions, so that they cannot differ.

pub use self::definition::{
    Column, Fallback, Field, Need, Section, Shape, Usual, Value, Why, Word,
};
pub use self::range::Range;

pub(crate) use self::line::FROM_VERTICAL;

mod bore;
mod crossing;
mod definition;
mod describe;
mod drilling;
mod factors;
mod ground;
mod ground_factors;
mod line;
mod range;
mod site;
mod string;

/// The format that this version reads and writes.
pub const FORMAT: u32 = 1;

/// All sections in the order of the file; the top of the file first.
#[must_use]
pub fn sections() -> &'static [&'static Section] {
    static SECTIONS: &[&Section] = &[
        &crossing::CROSSING,
        &site::SITE,
        &site::OBSTACLE,
        &line::LINE,
        &line::BEND,
        &line::ELEMENT,
        &string::STRING,
        &string::JOINT,
        &ground::GROUND,
        &ground::SOIL,
        &ground::BORING,
        &bore::BORE,
        &bore::RODS,
        &drilling::PILOT,
        &drilling::REAMING,
        &drilling::PULLING,
        &bore::FLUID,
        &bore::READINGS,
        &bore::RIG,
        &drilling::PUMP,
        &bore::SERVICE,
        &factors::FACTORS,
        &ground_factors::GROUND_FACTORS,
    ];
    SECTIONS
}

/// The section with this key path.
#[must_use]
pub fn section(key: &str) -> Option<&'static Section> {
    sections().iter().copied().find(|s| s.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_every_field_is_explained() {
        for section in sections() {
            assert!(!section.meaning.is_empty(), "[{}]", section.key);
            for (i, field) in section.fields.iter().enumerate() {
                let place = format!("{}/{}", section.path(), field.key);
                assert!(!field.meaning.is_empty(), "{place} needs a meaning");
                assert!(!field.example.is_empty(), "{place} needs an example");
                let twice = section.fields[..i].iter().any(|f| f.key == field.key);
                assert!(!twice, "{place} is defined twice");
            }
        }
    }

    #[test]
    fn the_section_above_stands_before_its_parts() {
        for (i, section) in sections().iter().enumerate() {
            if let Some((above, _)) = section.key.rsplit_once('.') {
                assert!(sections()[..i].iter().any(|s| s.key == above), "{}", section.key);
            }
        }
    }
}
