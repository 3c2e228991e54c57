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
mod burst;
mod burst_factors;
mod coordinates;
mod crossing;
mod definition;
mod describe;
mod drilling;
mod factors;
mod ground;
mod ground_factors;
mod host;
mod line;
mod range;
mod site;
mod string;

/// The format that this version reads and writes.
pub const FORMAT: u32 = 1;

/// How the string gets into the ground; decides which sections a file has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Technique {
    /// Directional drilling.
    Drilling,
    /// Pipe bursting.
    Bursting,
}

impl Technique {
    /// Both techniques.
    pub const ALL: [Technique; 2] = [Technique::Drilling, Technique::Bursting];

    /// The word of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Technique::Drilling => "drilling",
            Technique::Bursting => "bursting",
        }
    }

    /// Sections of a file of this technique, in the order of the file; the top of the file first.
    #[must_use]
    pub fn sections(self) -> &'static [&'static Section] {
        match self {
            Technique::Drilling => sections(),
            Technique::Bursting => burst_sections(),
        }
    }
}

fn burst_sections() -> &'static [&'static Section] {
    static SECTIONS: &[&Section] = &[
        &crossing::RENEWAL,
        &burst::STREET,
        &burst::NEIGHBOUR,
        &host::HOST,
        &host::STRETCH,
        &host::HOST_BEND,
        &host::FEATURE,
        &host::CONNECTION,
        &host::ASBESTOS,
        &coordinates::HOST_COORDINATES,
        &burst::FILL,
        &ground::SOIL,
        &string::BURST_STRING,
        &string::BURST_JOINT,
        &burst::BURST,
        &burst::RUN,
        &burst::PIT,
        &burst::MACHINE,
        &bore::SERVICE,
        &burst_factors::BURST_FACTORS,
    ];
    SECTIONS
}

/// All sections of a drilled crossing in the order of the file; the top of the file first.
#[must_use]
pub fn sections() -> &'static [&'static Section] {
    static SECTIONS: &[&Section] = &[
        &crossing::CROSSING,
        &site::SITE,
        &site::OBSTACLE,
        &line::LINE,
        &line::BEND,
        &line::ELEMENT,
        &coordinates::COORDINATES,
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_every_field_is_explained() {
        for section in Technique::ALL.iter().flat_map(|t| t.sections()) {
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
        for technique in Technique::ALL {
            let sections = technique.sections();
            for (i, section) in sections.iter().enumerate() {
                if let Some((above, _)) = section.key.rsplit_once('.') {
                    assert!(sections[..i].iter().any(|s| s.key == above), "{}", section.key);
                }
            }
        }
    }
}
