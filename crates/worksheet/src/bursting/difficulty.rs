use pull::bursting::{
    DEPTH_LIMITS, DIFFICULTY, Difficulty, DifficultyClass, DifficultyEdition, HOST_LIMITS, Soil,
    difficulty,
};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::upsize::{HOST_NOMINAL, word};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

const REMEMBERED: Source = Source::new(
    "edition remembered with little confidence; the table of 2007 was read",
    Evidence::FromMemory,
);
const BOTH_SIDES: Source = Source::new(
    "table 6.1 names the limits in both columns: the harder one is taken",
    Evidence::Judgement,
);

pub(super) static BURST_CLASS: Worksheet = Worksheet {
    id: "burst-class",
    title: "class of difficulty of a bursting job",
    inputs: &[
        Input::quantity("depth", "H", "depth of the line", unit::M, Range::Positive),
        HOST_NOMINAL,
        Input::quantity(
            "sizes_up",
            "n",
            "sizes by which the new pipe is larger; socketed pipe by burst-upsize",
            unit::ONE,
            Range::NotNegative,
        ),
        Input::quantity("length", "L", "length of the run", unit::M, Range::Positive),
        Input::quantity("trench_width", "W", "width of the old trench", unit::M, Range::Positive)
            .optional(),
        Input::quantity(
            "upsized_diameter",
            "D_u",
            "upsized diameter; with trench_width",
            unit::MM,
            Range::SIZE,
        )
        .optional(),
        Input::choice("soil", "how the ground takes up volume", SOILS).optional(),
        Input::choice("edition", "edition of the table: they differ in the length", EDITIONS)
            .or("asce-2007", &READ),
    ],
    outputs: &[
        Output::new("class", "A routine, B moderately difficult, C challenging", unit::ONE),
        Output::new("combined", "whether two criteria stand in the worst class", unit::ONE),
        Output::new("depth_class", "by depth", unit::ONE),
        Output::new("host_class", "by the old pipe", unit::ONE),
        Output::new("new_pipe_class", "by the new pipe", unit::ONE),
        Output::new("length_class", "by the length of the run", unit::ONE),
        Output::new("trench_class", "by the old trench", unit::ONE),
        Output::new("soil_class", "by the soil", unit::ONE),
    ],
    source: DIFFICULTY.source(),
    example: &[
        ("depth", "4 m"),
        ("host_diameter", "150 mm"),
        ("sizes_up", "1"),
        ("length", "120 m"),
    ],
    run: run_class,
};

const SOILS: &[&str] = &["compressible", "moderately-compressible", "incompressible"];
const EDITIONS: &[&str] = &["asce-2007", "report-2001", "guide-2012"];
static READ: Source = Source::new("the edition that was read", Evidence::Judgement);

fn run_class(v: &Values) -> Result<Sheet, Failure> {
    let edition = match v.word("edition") {
        "report-2001" => DifficultyEdition::Report2001,
        "guide-2012" => DifficultyEdition::Guide2012,
        _ => DifficultyEdition::Asce2007,
    };
    let soil = match v.word("soil") {
        "compressible" => Some(Soil::Compressible),
        "moderately-compressible" => Some(Soil::ModeratelyCompressible),
        "incompressible" => Some(Soil::Incompressible),
        _ => None,
    };
    let trench = match (v.optional("trench_width"), v.optional("upsized_diameter")) {
        (None, None) => None,
        _ => Some((
            Length::from_si(v.needed("trench_width", "with upsized_diameter")?),
            Length::from_si(v.needed("upsized_diameter", "with trench_width")?),
        )),
    };
    let classes = difficulty(&Difficulty {
        depth: Length::from_si(v.si("depth")),
        host_nominal: Length::from_si(v.si("host_diameter")),
        sizes_up: v.si("sizes_up"),
        length: Length::from_si(v.si("length")),
        trench,
        soil,
        edition,
    })
    .map_err(|e| refused(&BURST_CLASS, &e))?;
    let of_edition = match edition.evidence() {
        Evidence::Published => DIFFICULTY.source(),
        _ => REMEMBERED,
    };
    let mut w = v.open();
    for (index, what, (a, b), unit, source) in [
        (1, "depth", DEPTH_LIMITS, unit::M, DIFFICULTY.source()),
        (2, "old pipe", HOST_LIMITS, unit::MM, BOTH_SIDES),
        (3, "run", edition.length_limits(), unit::M, of_edition),
    ] {
        let symbol = |class: &str| format!("{class}_{index}");
        let meaning = |class: &str| format!("{what}: end of class {class}");
        w.given_from(&symbol("A"), &meaning("A"), a.si(), unit, source.clone());
        w.given_from(&symbol("B"), &meaning("B"), b.si(), unit, source);
    }
    let optional = |class: Option<DifficultyClass>| class.map_or("not given", word);
    Ok(Sheet::new(&[], w)
        .with_word("class", word(classes.overall))
        .with_word("combined", if classes.combined { "yes" } else { "no" })
        .with_word("depth_class", word(classes.depth))
        .with_word("host_class", word(classes.host))
        .with_word("new_pipe_class", word(classes.new_pipe))
        .with_word("length_class", word(classes.length))
        .with_word("trench_class", optional(classes.trench))
        .with_word("soil_class", optional(classes.soil)))
}
