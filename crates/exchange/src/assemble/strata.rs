use crate::ground_data::StratumData;
use crate::issue::Issues;
use crate::records::StratumRecord;
use crate::spec::DEPTH;

use super::{Boring, SAME_DEPTH};

/// What becomes of a gap: borings of the ground model hold the bases of their strata, each beginning where the one
/// above ends.
const GAP: &str =
    "the stratum below it is taken to reach up over the gap; give a row for what lies there";

/// What becomes of the ground below the last stratum.
const BELOW: &str = "the last stratum is taken to go on downwards, and the boring to end at its base; give a row for what lies there";

/// The strata of a boring, from the top down; notes what contradicts and what is missing.
pub(super) fn strata(
    boring: &Boring<'_>,
    rows: Vec<StratumRecord>,
    issues: &mut Issues,
) -> Vec<StratumData> {
    let mut rows: Vec<_> =
        rows.into_iter().filter(|row| has_thickness(boring, row, issues)).collect();
    rows.sort_by(|a, b| {
        a.top.value.total_cmp(&b.top.value).then(a.base.value.total_cmp(&b.base.value))
    });
    check_sequence(boring, &rows, issues);
    check_end(boring, &rows, issues);
    rows.into_iter().map(|row| stratum(boring, row, issues)).collect()
}

fn has_thickness(boring: &Boring<'_>, row: &StratumRecord, issues: &mut Issues) -> bool {
    let (top, base) = (row.top.value, row.base.value);
    if base - top >= SAME_DEPTH {
        return true;
    }
    let names = boring.names;
    issues
        .error(
            "top_not_above_base",
            row.base.place,
            format!(
                "{} of a stratum of boring {} must be greater than its {}, {}, but was {}",
                names.base,
                boring.id(),
                names.top,
                DEPTH.show(top),
                DEPTH.show(base)
            ),
        )
        .found(DEPTH.show(base))
        .allowed(format!("greater than {}", DEPTH.show(top)))
        .hint("depths count downwards from the ground");
    false
}

/// Notes overlaps and gaps. A row is held against the deepest base above it, and not only against the row before, so
/// that a short stratum inside of a long one does not hide the overlap with the next.
fn check_sequence(boring: &Boring<'_>, rows: &[StratumRecord], issues: &mut Issues) {
    let (id, names) = (boring.id(), boring.names);
    let mut deepest: Option<&StratumRecord> = None;
    for row in rows {
        let reached = deepest.map_or(0.0, |above| above.base.value);
        let top = row.top.value;
        if let Some(above) = deepest
            && reached - top >= SAME_DEPTH
        {
            issues
                .error(
                    "overlap",
                    row.place(),
                    format!(
                        "two strata of boring {id} overlap: {} is {}, but the stratum of line {} \
                         reaches to {}",
                        names.top,
                        DEPTH.show(top),
                        above.top.place.line,
                        DEPTH.show(reached)
                    ),
                )
                .found(DEPTH.show(top))
                .allowed(format!("{} or more", DEPTH.show(reached)))
                .hint("correct the depths, or remove the row that was written twice");
        } else if top - reached >= SAME_DEPTH {
            issues
                .warning(
                    "gap",
                    row.place(),
                    format!(
                        "boring {id} has no stratum from {} to {}",
                        DEPTH.show(reached),
                        DEPTH.show(top)
                    ),
                )
                .hint(GAP);
        }
        if deepest.is_none_or(|above| row.base.value > above.base.value) {
            deepest = Some(row);
        }
    }
}

/// Notes strata below the end of the boring, and the end of a boring below its strata.
fn check_end(boring: &Boring<'_>, rows: &[StratumRecord], issues: &mut Issues) {
    for row in rows.iter().filter(|row| boring.is_below(row.base.value)) {
        let base = DEPTH.show(row.base.value);
        issues
            .error(
                "below_final_depth",
                row.base.place,
                format!(
                    "{} {base} of a stratum lies below {}",
                    boring.names.base,
                    boring.final_depth()
                ),
            )
            .found(base)
            .allowed("at most the final depth")
            .hint("correct one of the two depths");
    }
    let deepest = rows.iter().map(|row| row.base.value).max_by(f64::total_cmp);
    let end = boring.record.final_depth.as_ref();
    if let (Some(deepest), Some(end)) = (deepest, end)
        && end.value - deepest >= super::FINAL_DEPTH_ROUNDING
    {
        let message = format!(
            "boring {} has no stratum from {} to its end at {}",
            boring.id(),
            DEPTH.show(deepest),
            DEPTH.show(end.value)
        );
        issues.warning("gap", end.place, message).hint(BELOW);
    }
}

fn stratum(boring: &Boring<'_>, row: StratumRecord, issues: &mut Issues) -> StratumData {
    let code = row
        .code
        .clone()
        .or_else(|| row.legend.clone())
        .unwrap_or_else(|| words_in_capitals(&row.description));
    if code.is_empty() {
        issues
            .warning(
                "no_code",
                row.place(),
                format!(
                    "nothing names the soil of the stratum of boring {} from {} to {}",
                    boring.id(),
                    DEPTH.show(row.top.value),
                    DEPTH.show(row.base.value)
                ),
            )
            .allowed(boring.names.codes)
            .hint("give one of them");
    }
    StratumData {
        top: row.top.value,
        base: row.base.value,
        code,
        legend: row.legend,
        description: row.description,
        line: row.top.place.line,
    }
}

/// The words of a description that are written in capitals, as logs write the main soil: `SAND GRAVEL` of "Dense SAND
/// and GRAVEL". A word has two letters or more and nothing but letters.
fn words_in_capitals(description: &str) -> String {
    description
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| word.chars().count() >= 2 && word.chars().all(char::is_uppercase))
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_main_soil_is_what_stands_in_capitals() {
        for (description, words) in [
            ("Soft grey silty CLAY", "CLAY"),
            ("Dense SAND and GRAVEL (ALLUVIUM)", "SAND GRAVEL ALLUVIUM"),
            ("MADE GROUND: brick, ash, A 2 mm, BH1", "MADE GROUND"),
            ("Ton, KIES Ø", "KIES"),
            ("soft clay", ""),
            ("", ""),
        ] {
            assert_eq!(words_in_capitals(description), words, "{description}");
        }
    }
}
