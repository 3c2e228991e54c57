//! From rows to borings: which row belongs to which boring, and whether they contradict each other.

use std::collections::{BTreeMap, BTreeSet};

use crate::ground_data::{BoringData, CptData, SptData};
use crate::issue::{Issues, Located, Place, nearest};
use crate::records::{BoringRecord, CptRecord, Names, Records, SptRecord};
use crate::spec::{CONE_RESISTANCE, DEPTH};

use self::place::check_place;
use self::strata::strata;
use self::water::water;

mod place;
mod strata;
mod water;

/// Depths that differ by no more are the same.
///
/// Judgement: depths are noted in centimetres; what is left is rounding of units.
const SAME_DEPTH: f64 = 1e-3;

/// How far a reading may lie below the final depth without a word.
///
/// Judgement: final depths are noted to the nearest 0.1 m.
const FINAL_DEPTH_ROUNDING: f64 = 0.1;

const CORRECT: &str = "correct one of the two depths";

/// The borings, in the order of the file.
pub(crate) fn assemble(records: Records, names: &Names, issues: &mut Issues) -> Vec<BoringData> {
    if records.boring_rows == 0 {
        issues
            .error(
                "no_borings",
                Place::line(1),
                format!("the file has no boring in {}", names.list),
            )
            .allowed("at least one boring")
            .hint(format!("add the borings to {}", names.list));
        // Every other row would repeat it.
        return Vec::new();
    }
    let index = listed(&records.borings, names, issues);
    let strata_of = by_boring(records.strata, |r| &r.boring, &index, names, issues);
    let spt_of = by_boring(records.spt, |r| &r.boring, &index, names, issues);
    let cpt_of = by_boring(records.cpt, |r| &r.boring, &index, names, issues);
    let water_of = by_boring(records.water, |r| &r.boring, &index, names, issues);
    let parts = strata_of.into_iter().zip(spt_of).zip(cpt_of).zip(water_of);
    let first_of_name: BTreeSet<usize> = index.values().copied().collect();
    let mut borings = Vec::new();
    for (at, (record, (((strata_rows, spt_rows), cpt_rows), water_rows))) in
        records.borings.into_iter().zip(parts).enumerate()
    {
        if !first_of_name.contains(&at) {
            continue;
        }
        let boring = &Boring { record: &record, names };
        check_place(boring, issues);
        let strata = strata(boring, strata_rows, issues);
        let spt = spt(boring, spt_rows, issues);
        let cpt = cpt(boring, cpt_rows, issues);
        let (water_depth, water_strikes) = water(boring, &water_rows, issues);
        if strata.is_empty() && cpt.is_empty() {
            issues.warning(
                "no_ground",
                record.id.place,
                format!("boring {} has neither strata nor cone readings", record.id.value),
            );
        }
        let si = |value: &Option<Located<f64>>| value.as_ref().map(|v| v.value);
        borings.push(BoringData {
            easting: si(&record.easting),
            northing: si(&record.northing),
            chainage: si(&record.chainage),
            offset: si(&record.offset),
            ground_level: si(&record.ground_level),
            final_depth: si(&record.final_depth),
            strata,
            spt,
            cpt,
            water_depth,
            water_strikes,
            line: record.id.place.line,
            id: record.id.value,
        });
    }
    borings
}

/// One boring while its rows are looked at.
#[derive(Debug)]
struct Boring<'a> {
    record: &'a BoringRecord,
    names: &'a Names,
}

impl Boring<'_> {
    fn id(&self) -> &str {
        &self.record.id.value
    }

    /// Whether a depth lies further below the final depth than rounding explains.
    fn is_below(&self, depth: f64) -> bool {
        self.record.final_depth.as_ref().is_some_and(|f| depth > f.value + FINAL_DEPTH_ROUNDING)
    }

    /// The final depth with its heading, for messages.
    fn final_depth(&self) -> String {
        let depth = self.record.final_depth.as_ref().map_or(0.0, |f| f.value);
        format!("{} of boring {}, {}", self.names.final_depth, self.id(), DEPTH.show(depth))
    }

    fn warn_below(&self, what: &str, depth: &Located<f64>, hint: &str, issues: &mut Issues) {
        issues
            .warning(
                "below_final_depth",
                depth.place,
                format!("{what} at {} lies below {}", DEPTH.show(depth.value), self.final_depth()),
            )
            .found(DEPTH.show(depth.value))
            .hint(hint);
    }
}

/// The borings by name, the first of each; notes names that come twice.
fn listed(borings: &[BoringRecord], names: &Names, issues: &mut Issues) -> BTreeMap<String, usize> {
    let mut index: BTreeMap<String, usize> = BTreeMap::new();
    for (at, boring) in borings.iter().enumerate() {
        let id = &boring.id.value;
        match index.get(id).and_then(|first| borings.get(*first)) {
            Some(first) => {
                issues
                    .error(
                        "duplicate_boring",
                        boring.id.place,
                        format!(
                            "{} \"{id}\" was used before, in line {}",
                            names.boring, first.id.place.line
                        ),
                    )
                    .found(id)
                    .allowed("a name of its own for each boring")
                    .hint("rename one of the two, or remove the row that was written twice");
            }
            None => {
                index.insert(id.clone(), at);
            }
        }
    }
    index
}

/// Rows of every boring; notes rows of borings that are not listed.
fn by_boring<R>(
    rows: Vec<R>,
    boring_of: impl Fn(&R) -> &Located<String>,
    index: &BTreeMap<String, usize>,
    names: &Names,
    issues: &mut Issues,
) -> Vec<Vec<R>> {
    let count = index.values().max().map_or(0, |last| last + 1);
    let mut sorted: Vec<Vec<R>> = std::iter::repeat_with(Vec::new).take(count).collect();
    for row in rows {
        let boring = boring_of(&row);
        let slot = index.get(&boring.value).and_then(|at| sorted.get_mut(*at));
        let Some(slot) = slot else {
            let id = &boring.value;
            let issue = issues.error(
                "unknown_boring",
                boring.place,
                format!("{} \"{id}\" is not listed in {}", names.boring, names.list),
            );
            issue.found(id);
            match nearest(id, index.keys().map(String::as_str)) {
                Some(near) => issue.hint(format!("did you mean \"{near}\"?")),
                None => issue.hint(format!("add the boring to {}", names.list)),
            };
            continue;
        };
        slot.push(row);
    }
    sorted
}

fn spt(boring: &Boring<'_>, mut rows: Vec<SptRecord>, issues: &mut Issues) -> Vec<SptData> {
    rows.sort_by(|a, b| a.depth.value.total_cmp(&b.depth.value));
    for pair in rows.windows(2) {
        if let [a, b] = pair
            && b.depth.value - a.depth.value < SAME_DEPTH
        {
            let depth = DEPTH.show(b.depth.value);
            let (id, line) = (boring.id(), a.depth.place.line);
            let message = format!("boring {id} has another test at {depth}, in line {line}");
            issues
                .warning("same_depth", b.depth.place, message)
                .hint("remove the row that was written twice");
        }
    }
    for row in rows.iter().filter(|row| boring.is_below(row.depth.value)) {
        boring.warn_below("a standard penetration test", &row.depth, CORRECT, issues);
    }
    rows.into_iter()
        .map(|row| SptData {
            depth: row.depth.value,
            blows: row.blows,
            energy_ratio: row.energy_ratio,
            n60: row.n60,
            refusal: row.refusal,
            line: row.depth.place.line,
        })
        .collect()
}

/// Cone readings. What is at fault comes by the dozen, so a boring gets one message of each kind.
fn cpt(boring: &Boring<'_>, mut rows: Vec<CptRecord>, issues: &mut Issues) -> Vec<CptData> {
    rows.sort_by(|a, b| a.depth.value.total_cmp(&b.depth.value));
    let id = boring.id();
    let is_reading = |row: &&CptRecord| row.cone_resistance.is_some_and(|q| q >= 0.0);
    let without: Vec<_> = rows.iter().filter(|row| !is_reading(row)).collect();
    if let Some(first) = without.first() {
        let heading = boring.names.cone_resistance;
        let found = first.cone_resistance.map_or("nothing".to_owned(), |q| CONE_RESISTANCE.show(q));
        issues
            .warning(
                "rows_left_out",
                first.depth.place,
                format!(
                    "{} of boring {id} without a cone resistance of 0 or more, the first at {}, were \
                     left out",
                    counted(without.len(), "cone reading"),
                    DEPTH.show(first.depth.value)
                ),
            )
            .found(found)
            .allowed(format!("{heading} of 0 or more"))
            .hint("a drift of the zero reading, or a stop; look whether they matter");
    }
    let same: Vec<_> = rows
        .windows(2)
        .filter_map(|pair| match pair {
            [a, b] if b.depth.value - a.depth.value < SAME_DEPTH / 2.0 => Some(b),
            _ => None,
        })
        .collect();
    if let Some(first) = same.first() {
        issues
            .warning(
                "same_depth",
                first.depth.place,
                format!(
                    "{} of boring {id} stand at the depth of another one, the first at {}",
                    counted(same.len(), "cone reading"),
                    DEPTH.show(first.depth.value)
                ),
            )
            .hint("several tests at one place belong under names of their own");
    }
    if let Some(row) = rows.iter().find(|row| boring.is_below(row.depth.value)) {
        boring.warn_below("a cone reading", &row.depth, CORRECT, issues);
    }
    rows.iter()
        .filter(is_reading)
        .filter_map(|row| {
            Some(CptData {
                depth: row.depth.value,
                cone_resistance: row.cone_resistance?,
                sleeve_friction: row.sleeve_friction,
                pore_pressure: row.pore_pressure,
                line: row.depth.place.line,
            })
        })
        .collect()
}

fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}
