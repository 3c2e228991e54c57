use super::definition::{Field, Section, Shape, Word};
use super::range::Range;

/// The top of the file.
pub(super) static CROSSING: Section = Section {
    key: "",
    shape: Shape::Table,
    meaning: "What the file is and what the crossing is called.",
    required: true,
    fields: &[
        Field::integer(
            "format",
            "format of this file; this version reads format 1",
            Range::within(1.0, 1.0),
        )
        .example("1"),
        Field::text("name", "name of the crossing, as printed above every result")
            .example("\"Creek crossing\""),
        Field::text("note", "what every reader should know, as that the data are invented")
            .optional("no note is printed")
            .example("\"Invented for practice.\""),
        Field::choice("technique", "how the string gets into the ground", TECHNIQUES)
            .optional("drilling is meant, the only technique of this version")
            .example("\"drilling\"")
            .refusing(LATER),
    ],
};

const LATER: &[Word] = &[Word {
    word: "bursting",
    meaning: "write technique = \"drilling\" for a bore; a bursting job cannot be checked with \
              this version",
}];

const TECHNIQUES: &[Word] = &[Word {
    word: "drilling",
    meaning: "a pilot bore is steered, reamed, and the string is pulled in",
}];
