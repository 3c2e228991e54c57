//! What the rows of a file say, before they are joined to borings.

use crate::issue::{Located, Place};

/// All rows of a file, whichever format they come from.
#[derive(Debug, Default)]
pub(crate) struct Records {
    /// Rows that list a boring, the faulty ones counted as well.
    pub(crate) boring_rows: usize,
    pub(crate) borings: Vec<BoringRecord>,
    pub(crate) strata: Vec<StratumRecord>,
    pub(crate) spt: Vec<SptRecord>,
    pub(crate) cpt: Vec<CptRecord>,
    pub(crate) water: Vec<WaterRecord>,
}

#[derive(Debug)]
pub(crate) struct BoringRecord {
    pub(crate) id: Located<String>,
    pub(crate) easting: Option<Located<f64>>,
    pub(crate) northing: Option<Located<f64>>,
    pub(crate) chainage: Option<Located<f64>>,
    pub(crate) offset: Option<Located<f64>>,
    pub(crate) ground_level: Option<Located<f64>>,
    pub(crate) final_depth: Option<Located<f64>>,
}

#[derive(Debug)]
pub(crate) struct StratumRecord {
    pub(crate) boring: Located<String>,
    pub(crate) top: Located<f64>,
    pub(crate) base: Located<f64>,
    /// Geology code.
    pub(crate) code: Option<String>,
    pub(crate) legend: Option<String>,
    pub(crate) description: String,
}

#[derive(Debug)]
pub(crate) struct SptRecord {
    pub(crate) boring: Located<String>,
    pub(crate) depth: Located<f64>,
    pub(crate) blows: Option<f64>,
    pub(crate) energy_ratio: Option<f64>,
    pub(crate) n60: Option<f64>,
    pub(crate) refusal: bool,
}

#[derive(Debug)]
pub(crate) struct CptRecord {
    pub(crate) boring: Located<String>,
    pub(crate) depth: Located<f64>,
    pub(crate) cone_resistance: Option<f64>,
    pub(crate) sleeve_friction: Option<f64>,
    pub(crate) pore_pressure: Option<f64>,
}

#[derive(Debug)]
pub(crate) struct WaterRecord {
    pub(crate) boring: Located<String>,
    pub(crate) depth: Located<f64>,
    pub(crate) kind: WaterKind,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum WaterKind {
    /// Where water came into the boring.
    Strike,
    /// Where it stood at rest.
    Standing,
}

/// How a format names what messages speak of.
#[derive(Debug)]
pub(crate) struct Names {
    /// A boring's name.
    pub(crate) boring: &'static str,
    /// Where borings are listed.
    pub(crate) list: &'static str,
    pub(crate) easting: &'static str,
    pub(crate) northing: &'static str,
    pub(crate) chainage: &'static str,
    pub(crate) offset: &'static str,
    pub(crate) ground_level: &'static str,
    pub(crate) final_depth: &'static str,
    pub(crate) top: &'static str,
    pub(crate) base: &'static str,
    /// Columns that give a stratum its code.
    pub(crate) codes: &'static str,
    pub(crate) cone_resistance: &'static str,
}

impl StratumRecord {
    pub(crate) fn place(&self) -> Place {
        self.top.place
    }
}
