//! Classes of difficulty of a bursting job.

use quantity::{Length, unit};
use working::Evidence;

use super::whole;
use crate::published::{Method, PublishedError, range};

/// The table of difficulty.
pub const DIFFICULTY: Method = Method {
    name: "classes of difficulty",
    document: "ASCE manual of 2007 as tabulated by Najafi, Trenchless Technology Piping, table 6.1, p. 240; \
         soil words of A and B remembered",
    evidence: Evidence::Published,
    validity: "smooth pipe: class socketed pipe by its expander; the worst criterion decides, own rule",
};

/// A class of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DifficultyClass {
    /// Routine.
    A,
    /// Moderately difficult.
    B,
    /// Challenging.
    C,
}

/// Which edition of the table: they differ in the length of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DifficultyEdition {
    /// ASCE manual of 2007: 350 and 450 ft, read in Najafi, table 6.1.
    Asce2007,
    /// Technical report of 2001: about 300 and 450 ft, from memory with little confidence.
    Report2001,
    /// Trade guide of 2012: about 350 and 500 ft, from memory with little confidence.
    Guide2012,
}

/// How the ground around the old pipe takes up volume.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Soil {
    /// Compressible: class A; the word is remembered.
    Compressible,
    /// Moderately compressible: class B; the word is remembered.
    ModeratelyCompressible,
    /// Incompressible: class C.
    Incompressible,
}

/// A job by the criteria of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difficulty {
    /// Depth of the line.
    pub depth: Length,
    /// Nominal diameter of the existing pipe.
    pub host_nominal: Length,
    /// Sizes by which the new pipe is larger; socketed pipe by [`super::sizes_up`].
    pub sizes_up: f64,
    /// Length of the run.
    pub length: Length,
    /// Width of the old trench and the upsized diameter, where known.
    pub trench: Option<(Length, Length)>,
    /// The ground, where known.
    pub soil: Option<Soil>,
    /// Edition of the table.
    pub edition: DifficultyEdition,
}

/// What [`difficulty`] returns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DifficultyClasses {
    /// By depth.
    pub depth: DifficultyClass,
    /// By the existing pipe.
    pub host: DifficultyClass,
    /// By the new pipe.
    pub new_pipe: DifficultyClass,
    /// By the length of the run.
    pub length: DifficultyClass,
    /// By the old trench, where it was given; A or B, since C is not legible in what was read.
    pub trench: Option<DifficultyClass>,
    /// By the soil, where it was given.
    pub soil: Option<DifficultyClass>,
    /// The worst of all.
    pub overall: DifficultyClass,
    /// Whether two or more criteria stand in the worst class and that is not A.
    pub combined: bool,
}

/// Depths that end A and B: 12 and 18 ft.
pub const DEPTH_LIMITS: (Length, Length) =
    (Length::from_si(12.0 * FOOT), Length::from_si(18.0 * FOOT));
/// International foot, m.
const FOOT: f64 = 0.3048;
/// Nominal diameters that end A and B: 300 and 500 mm (12 and 20 in).
// Judgement: the table names 12 and 20 in on both sides; here they belong to the harder class.
pub const HOST_LIMITS: (Length, Length) = (Length::from_si(0.300), Length::from_si(0.500));
/// Nominal diameters of the whole table: 4 to 36 in, m; DN 100 is 4 in.
const HOST_RANGE: (f64, f64) = (0.100, 0.9144);
/// How much wider than the upsized diameter a trench of class B is at most: 4 in, m.
const TRENCH_MARGIN: f64 = 4.0 * 0.0254;

impl DifficultyEdition {
    /// Lengths of a run that end A and B.
    #[must_use]
    pub const fn length_limits(self) -> (Length, Length) {
        let (a, b) = match self {
            DifficultyEdition::Asce2007 => (350.0, 450.0),
            DifficultyEdition::Report2001 => (300.0, 450.0),
            DifficultyEdition::Guide2012 => (350.0, 500.0),
        };
        (Length::from_si(a * FOOT), Length::from_si(b * FOOT))
    }

    /// How well the edition is founded here.
    #[must_use]
    pub const fn evidence(self) -> Evidence {
        match self {
            DifficultyEdition::Asce2007 => Evidence::Published,
            DifficultyEdition::Report2001 | DifficultyEdition::Guide2012 => Evidence::FromMemory,
        }
    }
}

impl DifficultyClass {
    /// Class of a value by the two limits that end A and B. Values at 12 ft, say, belong to B.
    fn rising(value: f64, (a, b): (Length, Length)) -> Self {
        // The limits are converted from feet: rounding must not decide about a value on them.
        let reaches = |limit: Length| value >= limit.si() * (1.0 - 1e-12);
        match (reaches(a), reaches(b)) {
            (_, true) => DifficultyClass::C,
            (true, false) => DifficultyClass::B,
            (false, false) => DifficultyClass::A,
        }
    }

    /// Class of a run: both limits still belong to B.
    fn of_length(length: f64, (a, b): (Length, Length)) -> Self {
        let exceeds_b = length > b.si() * (1.0 + 1e-12);
        let rest = || Self::rising(length, (a, Length::from_si(f64::MAX)));
        if exceeds_b { DifficultyClass::C } else { rest() }
    }

    /// Class of a number of sizes up: 0 and 1 are A, 2 is B.
    pub(super) fn of_sizes(sizes: u32) -> Self {
        match sizes {
            0 | 1 => DifficultyClass::A,
            2 => DifficultyClass::B,
            _ => DifficultyClass::C,
        }
    }
}

/// Class of a job by each criterion of the table, and the worst.
///
/// | criterion      | A routine   | B moderately difficult | C challenging |
/// |----------------|-------------|------------------------|---------------|
/// | depth          | < 12 ft     | 12 to 18 ft            | > 18 ft       |
/// | existing pipe  | 4 to 12 in  | 12 to 20 in            | 20 to 36 in   |
/// | new pipe       | same or one size up | two sizes up   | three or more |
/// | run (2007)     | < 350 ft    | 350 to 450 ft          | > 450 ft      |
/// | old trench     | wide        | < 4 in wider than the upsized diameter | not legible |
/// | soil           | compressible | moderately compressible | incompressible |
///
/// A diameter that stands in two columns belongs to the harder one; 18 ft and 450 ft still belong to B. Valid for
/// existing pipes of 4 to 36 in (DN 100 to 900). A criterion that was not given has no class and no part in the worst.
///
/// # Source
/// [`DIFFICULTY`]; how the criteria combine is an own rule.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/difficulty-najafi-table-6-1.toml`, `cases/burst/difficulty-combined.toml` (computed),
/// `cases/burst/difficulty-editions.toml` (from memory).
pub fn difficulty(job: &Difficulty) -> Result<DifficultyClasses, PublishedError> {
    let depth = range::positive("depth", job.depth.si(), unit::M)?;
    let host = range::within("host diameter", job.host_nominal.si(), HOST_RANGE, unit::MM)?;
    let sizes = whole("sizes up", job.sizes_up, 0.0)?;
    let length = range::positive("length", job.length.si(), unit::M)?;
    let trench = job.trench.map(|(width, upsized)| trench_class(width, upsized)).transpose()?;
    let depth = DifficultyClass::of_length(depth, DEPTH_LIMITS);
    let host = DifficultyClass::rising(host, HOST_LIMITS);
    // Beyond three the class no longer depends on the count.
    let new_pipe = DifficultyClass::of_sizes(if sizes >= 3.0 {
        3
    } else if sizes >= 2.0 {
        2
    } else {
        1
    });
    let length = DifficultyClass::of_length(length, job.edition.length_limits());
    let soil = job.soil.map(|soil| match soil {
        Soil::Compressible => DifficultyClass::A,
        Soil::ModeratelyCompressible => DifficultyClass::B,
        Soil::Incompressible => DifficultyClass::C,
    });
    let all = [Some(depth), Some(host), Some(new_pipe), Some(length), trench, soil];
    let overall = all.iter().flatten().copied().max().unwrap_or(DifficultyClass::A);
    let worst = all.iter().flatten().filter(|class| **class == overall).count();
    let combined = overall != DifficultyClass::A && worst >= 2;
    Ok(DifficultyClasses { depth, host, new_pipe, length, trench, soil, overall, combined })
}

fn trench_class(width: Length, upsized: Length) -> Result<DifficultyClass, PublishedError> {
    let upsized = range::positive("upsized diameter", upsized.si(), unit::MM)?;
    let width = range::at_least("trench width", width.si(), upsized, unit::M)?;
    let narrow = width - upsized < TRENCH_MARGIN * (1.0 - 1e-12);
    Ok(if narrow { DifficultyClass::B } else { DifficultyClass::A })
}
