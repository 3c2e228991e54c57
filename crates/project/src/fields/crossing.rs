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
            .optional("drilling is meant")
            .example("\"drilling\""),
    ],
};

/// The top of a file on pipe bursting.
pub(super) static RENEWAL: Section = Section {
    key: "",
    shape: Shape::Table,
    meaning: "What the file is and what the renewal of the main is called.",
    required: true,
    fields: &[
        Field::integer(
            "format",
            "format of this file; this version reads format 1",
            Range::within(1.0, 1.0),
        )
        .example("1"),
        Field::text("name", "name of the renewal, as printed above every result")
            .example("\"Street with an old main\""),
        Field::text("note", "what every reader should know, as that the data are invented")
            .optional("no note is printed")
            .example("\"Invented for practice.\""),
        Field::choice("technique", "how the string gets into the ground", TECHNIQUES)
            .example("\"bursting\""),
    ],
};

const TECHNIQUES: &[Word] = &[
    Word {
        word: "drilling",
        meaning: "a pilot bore is steered, reamed, and the string is pulled in",
    },
    Word {
        word: "bursting",
        meaning: "an old main is broken outwards and the string is pulled into its place",
    },
];
