use crate::issue::{Located, brief};
use crate::records::{BoringRecord, CptRecord, SptRecord, StratumRecord, WaterKind, WaterRecord};
use crate::spec::{
    BLOWS, CHAINAGE, CONE_RESISTANCE, COORDINATE, DEPTH, ENERGY, LEVEL, OFFSET, PORE_PRESSURE,
    SLEEVE_FRICTION, WATER_DEPTH,
};
use crate::spt_result::{SptResult, read_result};
use crate::table::Cells;

use super::water::Rise;
use super::{Ags, Group};

/// Takes what a DATA row of a group says. What is at fault is noted and left out.
pub(super) fn data_row(
    group: Group,
    cells: &mut Cells<'_, '_>,
    ags: &mut Ags,
    rises: &mut Vec<Rise>,
) {
    let records = &mut ags.records;
    match group {
        Group::Transmission => edition(cells, ags),
        Group::Locations => {
            records.boring_rows += 1;
            records.borings.extend(location(cells));
        }
        Group::Geology => records.strata.extend(stratum(cells)),
        Group::Spt => records.spt.extend(spt(cells)),
        Group::Cpt => records.cpt.extend(cpt(cells)),
        Group::WaterStrikes => records.water.extend(strike(cells)),
        Group::WaterRises => rises.extend(rise(cells)),
        Group::Monitoring => records.water.extend(reading(cells)),
    }
}

fn edition(cells: &mut Cells<'_, '_>, ags: &mut Ags) {
    let Some(edition) = cells.text("TRAN_AGS") else { return };
    if edition.value.split('.').next() != Some("4") {
        cells
            .issues
            .warning(
                "edition",
                edition.place,
                format!("TRAN_AGS says edition \"{}\"", brief(&edition.value)),
            )
            .found(&edition.value)
            .allowed("an edition of AGS4, as 4.1.1")
            .hint("the file was read as AGS4, whose form it has");
    }
    ags.edition = Some(edition.value);
}

fn location(cells: &mut Cells<'_, '_>) -> Option<BoringRecord> {
    let id = cells.needed_text("LOCA_ID");
    let record = BoringRecord {
        easting: cells.value("LOCA_NATE", &COORDINATE),
        northing: cells.value("LOCA_NATN", &COORDINATE),
        chainage: chainage(cells),
        // The dictionary gives LOCA_OFFS no unit.
        offset: cells.value("LOCA_OFFS", &OFFSET.bare()),
        ground_level: cells.value("LOCA_GL", &LEVEL),
        final_depth: cells.value("LOCA_FDEP", &DEPTH),
        id: id?,
    };
    Some(record)
}

/// LOCA_CNGE is a text: a number, or kilometres and metres as in `12+345.60`.
fn chainage(cells: &mut Cells<'_, '_>) -> Option<Located<f64>> {
    const NAME: &str = "LOCA_CNGE";
    let cell = cells.text(NAME)?;
    if quantity::parse_number(&cell.value).is_some() {
        return cells.value(NAME, &CHAINAGE.bare());
    }
    let metres = kilometres_and_metres(&cell.value).filter(|si| CHAINAGE.holds(*si));
    if metres.is_none() {
        cells
            .issues
            .warning(
                "chainage_text",
                cell.place,
                format!("{NAME} \"{}\" was not read", brief(&cell.value)),
            )
            .found(&cell.value)
            .allowed("metres as 345.60, or kilometres and metres as 12+345.60")
            .hint("stations of another kind must be converted by hand");
    }
    Some(Located { value: metres?, place: cell.place })
}

fn kilometres_and_metres(text: &str) -> Option<f64> {
    let (kilometres, metres) = text.split_once('+')?;
    let (kilometres, metres) = (kilometres.trim(), metres.trim());
    let whole = metres.split('.').next()?;
    let digits = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    if !digits(kilometres) || whole.len() != 3 || !digits(whole) {
        return None;
    }
    Some(quantity::parse_number(kilometres)? * 1000.0 + quantity::parse_number(metres)?)
}

fn stratum(cells: &mut Cells<'_, '_>) -> Option<StratumRecord> {
    let boring = cells.needed_text("LOCA_ID");
    let top = cells.needed_value("GEOL_TOP", &DEPTH);
    let base = cells.needed_value("GEOL_BASE", &DEPTH);
    let text = |name: &str| cells.text(name).map(|cell| cell.value);
    Some(StratumRecord {
        code: text("GEOL_GEOL"),
        legend: text("GEOL_LEG"),
        description: text("GEOL_DESC").unwrap_or_default(),
        boring: boring?,
        top: top?,
        base: base?,
    })
}

fn spt(cells: &mut Cells<'_, '_>) -> Option<SptRecord> {
    let boring = cells.needed_text("LOCA_ID");
    let depth = cells.needed_value("ISPT_TOP", &DEPTH);
    let result = spt_result(cells);
    let energy_ratio = cells.value("ISPT_ERAT", &ENERGY).map(|v| v.value);
    let n60 = cells.value("ISPT_N60", &BLOWS).map(|v| v.value);
    Some(SptRecord {
        boring: boring?,
        depth: depth?,
        blows: result.blows,
        energy_ratio,
        n60,
        refusal: result.refusal,
    })
}

/// The N value, and whether the reported result says that the ground refused the drive.
fn spt_result(cells: &mut Cells<'_, '_>) -> SptResult {
    let reported = cells.text("ISPT_REP");
    let report = reported.as_ref().and_then(|cell| read_result(&cell.value));
    let Some(n) = cells.text("ISPT_NVAL") else {
        if report.is_none() {
            let issue = cells.issues.warning(
                "no_blows",
                crate::issue::Place::line(cells.row.line),
                "a standard penetration test has no ISPT_NVAL, and ISPT_REP does not tell it",
            );
            issue.found(reported.map_or("nothing".to_owned(), |cell| cell.value));
            issue
                .allowed("N=35, or a refusal such as 50/75 mm")
                .hint("the test is kept without blows");
        }
        return report.unwrap_or_default();
    };
    if quantity::parse_number(&n.value).is_none()
        && let Some(result) = read_result(&n.value)
    {
        cells
            .issues
            .warning("n_text", n.place, format!("ISPT_NVAL holds a text: \"{}\"", brief(&n.value)))
            .found(&n.value)
            .allowed("a number; texts belong in ISPT_REP")
            .hint("it was read as the reported result");
        return SptResult {
            refusal: result.refusal || report.is_some_and(|r| r.refusal),
            ..result
        };
    }
    let blows = cells.value("ISPT_NVAL", &BLOWS).map(|v| v.value);
    let refusal = report.is_some_and(|r| r.refusal);
    if let (Some(blows), Some(told)) = (blows, report.and_then(|r| r.blows))
        && blows != told
        && !refusal
    {
        cells
            .issues
            .warning(
                "n_differs",
                n.place,
                format!("ISPT_NVAL is {blows}, but ISPT_REP says {told}"),
            )
            .found(&n.value)
            .hint("ISPT_NVAL was taken; compare with the log");
    }
    SptResult { blows, refusal }
}

fn cpt(cells: &mut Cells<'_, '_>) -> Option<CptRecord> {
    let boring = cells.needed_text("LOCA_ID");
    let depth = cells.needed_value("SCPT_DPTH", &DEPTH);
    // Corrected for pore pressure where the file has that.
    let heading = if cells.text("SCPT_QT").is_some() { "SCPT_QT" } else { "SCPT_RES" };
    let given = cells.text(heading).is_some();
    let cone_resistance = cells.value(heading, &CONE_RESISTANCE).map(|v| v.value);
    let sleeve_friction = cells.value("SCPT_FRES", &SLEEVE_FRICTION).map(|v| v.value);
    let pore_pressure = cells.value("SCPT_PWP2", &PORE_PRESSURE).map(|v| v.value);
    if given && cone_resistance.is_none() {
        // The fault is noted; the row shall not be counted again as one without a value.
        return None;
    }
    Some(CptRecord {
        boring: boring?,
        depth: depth?,
        cone_resistance,
        sleeve_friction,
        pore_pressure,
    })
}

fn strike(cells: &mut Cells<'_, '_>) -> Option<WaterRecord> {
    let boring = cells.needed_text("LOCA_ID");
    let depth = cells.needed_value("WSTG_DPTH", &WATER_DEPTH);
    Some(WaterRecord { boring: boring?, depth: depth?, kind: WaterKind::Strike })
}

fn rise(cells: &mut Cells<'_, '_>) -> Option<Rise> {
    let boring = cells.needed_text("LOCA_ID");
    let strike = cells.needed_value("WSTG_DPTH", &WATER_DEPTH);
    // Only their order counts, and a column has one unit.
    let minutes =
        cells.text("WSTD_NMIN").and_then(|cell| cells.number("WSTD_NMIN", &cell)).unwrap_or(0.0);
    let depth = cells.value("WSTD_POST", &WATER_DEPTH);
    Some(Rise { boring: boring?, strike: strike?.value, minutes, depth: depth? })
}

/// A reading of a standpipe or a piezometer: only depths to water, in a unit of length.
fn reading(cells: &mut Cells<'_, '_>) -> Option<WaterRecord> {
    let boring = cells.needed_text("LOCA_ID");
    if cells.text("MOND_TYPE")?.value != "WDEP" {
        return None;
    }
    let reading = cells.text("MOND_RDNG")?;
    if reading.value.eq_ignore_ascii_case("dry") {
        return None;
    }
    let unit = cells.needed_text("MOND_UNIT");
    let number = cells.number("MOND_RDNG", &reading)?;
    let unit = unit?;
    let Some(factor) = WATER_DEPTH.factor(&unit.value) else {
        cells
            .issues
            .error(
                "unknown_unit",
                unit.place,
                format!("\"{}\" is not a unit of a length, as a depth to water needs", unit.value),
            )
            .found(&unit.value)
            .allowed(WATER_DEPTH.units())
            .hint("correct MOND_UNIT, or MOND_TYPE where it is no depth");
        return None;
    };
    let depth = Located { value: number * factor, place: reading.place };
    if !WATER_DEPTH.holds(depth.value) {
        cells
            .issues
            .error(
                "out_of_range",
                depth.place,
                format!(
                    "MOND_RDNG must be {}, but was {}",
                    WATER_DEPTH.range(),
                    WATER_DEPTH.show(depth.value)
                ),
            )
            .found(&reading.value)
            .allowed(WATER_DEPTH.range())
            .hint("correct MOND_RDNG or MOND_UNIT");
        return None;
    }
    Some(WaterRecord { boring: boring?, depth, kind: WaterKind::Standing })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stations_in_kilometres_and_metres_are_read_and_others_are_not() {
        assert_eq!(kilometres_and_metres("500+123.23"), Some(500_123.23));
        assert_eq!(kilometres_and_metres("0+008"), Some(8.0));
        for text in ["12+34.5", "1+2345", "-1+000", "1 + x00", "+100", "1+", "10", "1+10e"] {
            assert_eq!(kilometres_and_metres(text), None, "{text}");
        }
    }
}
