use crate::records::{
    BoringRecord, CptRecord, Records, SptRecord, StratumRecord, WaterKind, WaterRecord,
};
use crate::spec::{
    BLOWS, CHAINAGE, CONE_RESISTANCE, COORDINATE, DEPTH, ENERGY, LEVEL, OFFSET, PORE_PRESSURE,
    SLEEVE_FRICTION, WATER_DEPTH,
};
use crate::spt_result::{SptResult, read_result};
use crate::table::Cells;

/// What a row is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Boring,
    Stratum,
    Spt,
    Cpt,
    Water,
    Strike,
}

impl Kind {
    pub(super) const ALL: [(&'static str, Kind); 6] = [
        ("boring", Kind::Boring),
        ("stratum", Kind::Stratum),
        ("spt", Kind::Spt),
        ("cpt", Kind::Cpt),
        ("water", Kind::Water),
        ("strike", Kind::Strike),
    ];

    pub(super) fn find(word: &str) -> Option<Kind> {
        Self::ALL.iter().find(|(known, _)| known.eq_ignore_ascii_case(word)).map(|(_, kind)| *kind)
    }

    pub(super) fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| *word)
    }

    /// Columns that its rows may fill, beside `row` and `remark`.
    pub(super) fn columns(self) -> &'static [&'static str] {
        match self {
            Kind::Boring => {
                &["boring", "easting", "northing", "chainage", "offset", "level", "depth"]
            }
            Kind::Stratum => &["boring", "top", "base", "soil", "legend", "description"],
            Kind::Spt => &["boring", "depth", "n", "energy", "n60"],
            Kind::Cpt => &["boring", "depth", "qc", "fs", "u2"],
            Kind::Water | Kind::Strike => &["boring", "depth"],
        }
    }

    pub(super) fn has(self, column: &str) -> bool {
        matches!(column, "row" | "remark") || self.columns().contains(&column)
    }

    /// Columns that must be there for its rows.
    pub(super) fn needed(self) -> &'static [&'static str] {
        match self {
            Kind::Boring => &[],
            Kind::Stratum => &["top", "base"],
            Kind::Spt => &["depth", "n"],
            Kind::Cpt => &["depth", "qc"],
            Kind::Water | Kind::Strike => &["depth"],
        }
    }
}

/// Takes what a row says. What is at fault is noted and left out.
pub(super) fn take(kind: Kind, cells: &mut Cells<'_, '_>, records: &mut Records) {
    match kind {
        Kind::Boring => records.borings.extend(boring(cells)),
        Kind::Stratum => records.strata.extend(stratum(cells)),
        Kind::Spt => records.spt.extend(spt(cells)),
        Kind::Cpt => records.cpt.extend(cpt(cells)),
        Kind::Water => records.water.extend(water(cells, WaterKind::Standing)),
        Kind::Strike => records.water.extend(water(cells, WaterKind::Strike)),
    }
}

fn boring(cells: &mut Cells<'_, '_>) -> Option<BoringRecord> {
    let id = cells.needed_text("boring");
    let record = BoringRecord {
        easting: cells.value("easting", &COORDINATE),
        northing: cells.value("northing", &COORDINATE),
        chainage: cells.value("chainage", &CHAINAGE),
        offset: cells.value("offset", &OFFSET),
        ground_level: cells.value("level", &LEVEL),
        final_depth: cells.value("depth", &DEPTH),
        id: id?,
    };
    Some(record)
}

fn stratum(cells: &mut Cells<'_, '_>) -> Option<StratumRecord> {
    let boring = cells.needed_text("boring");
    let top = cells.needed_value("top", &DEPTH);
    let base = cells.needed_value("base", &DEPTH);
    let text = |name: &str| cells.text(name).map(|cell| cell.value);
    Some(StratumRecord {
        code: text("soil"),
        legend: text("legend"),
        description: text("description").unwrap_or_default(),
        boring: boring?,
        top: top?,
        base: base?,
    })
}

fn spt(cells: &mut Cells<'_, '_>) -> Option<SptRecord> {
    let boring = cells.needed_text("boring");
    let depth = cells.needed_value("depth", &DEPTH);
    let result = spt_result(cells);
    let energy_ratio = cells.value("energy", &ENERGY).map(|v| v.value);
    let n60 = cells.value("n60", &BLOWS).map(|v| v.value);
    Some(SptRecord {
        boring: boring?,
        depth: depth?,
        blows: result.blows,
        energy_ratio,
        n60,
        refusal: result.refusal,
    })
}

/// A number of blows, or a refusal as logs write it.
fn spt_result(cells: &mut Cells<'_, '_>) -> SptResult {
    let Some(n) = cells.needed_text("n") else { return SptResult::default() };
    let is_number = quantity::parse_number(&n.value).is_some();
    if let Some(result) = read_result(&n.value).filter(|_| !is_number) {
        return result;
    }
    SptResult { blows: cells.value("n", &BLOWS).map(|v| v.value), refusal: false }
}

fn cpt(cells: &mut Cells<'_, '_>) -> Option<CptRecord> {
    let boring = cells.needed_text("boring");
    let depth = cells.needed_value("depth", &DEPTH);
    let cone_resistance = cells.needed_value("qc", &CONE_RESISTANCE).map(|v| v.value);
    let sleeve_friction = cells.value("fs", &SLEEVE_FRICTION).map(|v| v.value);
    let pore_pressure = cells.value("u2", &PORE_PRESSURE).map(|v| v.value);
    Some(CptRecord {
        boring: boring?,
        depth: depth?,
        cone_resistance: Some(cone_resistance?),
        sleeve_friction,
        pore_pressure,
    })
}

fn water(cells: &mut Cells<'_, '_>, kind: WaterKind) -> Option<WaterRecord> {
    let boring = cells.needed_text("boring");
    let depth = cells.needed_value("depth", &WATER_DEPTH);
    Some(WaterRecord { boring: boring?, depth: depth?, kind })
}
