use serde::Serialize;

use crate::issue::DataIssue;

/// What a ground investigation file holds, as read; SI units (metres, pascals).
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroundData {
    /// The format that was recognised.
    pub format: Format,
    /// Borings, in the order of the file; their rows go down from the ground.
    pub borings: Vec<BoringData>,
    /// What somebody should look at, in the order of the file.
    pub warnings: Vec<DataIssue>,
    /// Names of the groups of an AGS4 file that are none of those read, in the order of the file: samples, laboratory
    /// tests and the like. Empty for a table, of which everything is read or refused.
    pub not_read: Vec<String>,
}

/// A format that is read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "name")]
pub enum Format {
    /// AGS data format, fourth series.
    Ags4 {
        /// What the file says of its edition, as `4.1.1`.
        edition: Option<String>,
    },
    /// The table described in `docs/ground-data.md`.
    Csv,
}

/// One boring, probing or pit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoringData {
    /// Its name, unique in the file.
    pub id: String,
    /// Easting, m; given together with the northing or not at all.
    pub easting: Option<f64>,
    /// Northing, m.
    pub northing: Option<f64>,
    /// Chainage along the line, m.
    pub chainage: Option<f64>,
    /// Offset from the line, m, with the sign of the file.
    pub offset: Option<f64>,
    /// Level of the ground, m.
    pub ground_level: Option<f64>,
    /// Depth at which it ended, m.
    pub final_depth: Option<f64>,
    /// Strata, from the top down; they do not overlap.
    pub strata: Vec<StratumData>,
    /// Standard penetration tests, from the top down.
    pub spt: Vec<SptData>,
    /// Readings of cone penetration tests, from the top down.
    pub cpt: Vec<CptData>,
    /// Depth of standing water below the ground, m: the shallowest of the readings of water at rest, for the higher
    /// level asks more of a bore and a pipe; where there are none, the shallowest strike.
    pub water_depth: Option<f64>,
    /// Depths at which water was struck, m, from the top down.
    pub water_strikes: Vec<f64>,
    /// Line of the file, counted from 1.
    pub line: usize,
}

/// One stratum of a boring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StratumData {
    /// Depth of its top below the ground, m.
    pub top: f64,
    /// Depth of its base, m; greater than that of the top.
    pub base: f64,
    /// What names its soil: the geology code, else the legend code, else the words that the description writes in
    /// capitals (`CLAY` of "Soft grey CLAY"). Empty where nothing does, which is a warning.
    pub code: String,
    /// Legend code.
    pub legend: Option<String>,
    /// Description.
    pub description: String,
    /// Line of the file, counted from 1.
    pub line: usize,
}

/// One standard penetration test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SptData {
    /// Depth of its top below the ground, m.
    pub depth: f64,
    /// Blows for 300 mm, or, where the test was refused, blows counted until it was stopped.
    pub blows: Option<f64>,
    /// Share of the theoretical energy that reached the rods: 0.6 for 60 %.
    pub energy_ratio: Option<f64>,
    /// Blows for 300 mm corrected to an energy ratio of 60 %, where the file gives them; never worked out here.
    pub n60: Option<f64>,
    /// Whether the ground refused the full drive.
    pub refusal: bool,
    /// Line of the file, counted from 1.
    pub line: usize,
}

/// One reading of a cone penetration test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CptData {
    /// Depth below the ground, m.
    pub depth: f64,
    /// Cone resistance, Pa; corrected for pore pressure where the file gives that value.
    pub cone_resistance: f64,
    /// Sleeve friction, Pa, as measured: a drift of the zero reading may make it negative.
    pub sleeve_friction: Option<f64>,
    /// Pore pressure behind the cone, Pa.
    pub pore_pressure: Option<f64>,
    /// Line of the file, counted from 1.
    pub line: usize,
}
