use line::Line;
use quantity::Length;

use crate::GroundError;

/// Smallest value of a function over the bore, and where: measured distance in metres.
///
/// The function must be smooth between the breakpoints of the line and the given chainages. Each
/// stretch between them is sampled at [`SAMPLES`] places and refined around the lowest ones by
/// golden section to 1e-7 m of measured distance.
pub(crate) fn least(
    line: &Line,
    md_from: f64,
    md_to: f64,
    corners: impl IntoIterator<Item = f64>,
    f: impl Fn(f64) -> f64,
) -> Result<(f64, f64), GroundError> {
    let mut marks = vec![md_from, md_to];
    marks.extend(line.breakpoints().into_iter().map(Length::si));
    let run = line.run().si();
    for chainage in corners {
        if chainage > 0.0 && chainage < run {
            marks.push(line.md_at_chainage(Length::from_si(chainage))?.si());
        }
    }
    marks.retain(|md| *md >= md_from && *md <= md_to);
    marks.sort_by(f64::total_cmp);
    marks.dedup();
    let mut best = (f64::INFINITY, md_from);
    for pair in marks.windows(2) {
        if let [a, b] = pair {
            let found = least_between(*a, *b, &f);
            if found.0 < best.0 {
                best = found;
            }
        }
    }
    if marks.len() == 1 {
        best = (f(md_from), md_from);
    }
    Ok(best)
}

/// Places at which each smooth stretch is looked at before refining. Judgement: a stretch between
/// corners is a straight or an arc of less than half a turn, on which every distance here has two
/// minima at most.
const SAMPLES: u32 = 24;

fn least_between(a: f64, b: f64, f: &impl Fn(f64) -> f64) -> (f64, f64) {
    let step = (b - a) / f64::from(SAMPLES);
    let values: Vec<(f64, f64)> = (0..=SAMPLES)
        .map(|i| if i == SAMPLES { b } else { a + step * f64::from(i) })
        .map(|md| (f(md), md))
        .collect();
    let mut best = (f64::INFINITY, a);
    for (i, &(value, md)) in values.iter().enumerate() {
        if value < best.0 {
            best = (value, md);
        }
        let lower_before = i > 0 && values.get(i - 1).is_some_and(|v| v.0 < value);
        let lower_after = values.get(i + 1).is_some_and(|v| v.0 < value);
        if !lower_before && !lower_after {
            let found = golden(f, (md - step).max(a), (md + step).min(b));
            if found.0 < best.0 {
                best = found;
            }
        }
    }
    best
}

/// Minimum of a function with one minimum in the bracket, to 1e-7.
fn golden(f: &impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> (f64, f64) {
    let ratio = 0.5 * (5f64.sqrt() - 1.0);
    let (mut x1, mut x2) = (b - ratio * (b - a), a + ratio * (b - a));
    let (mut f1, mut f2) = (f(x1), f(x2));
    while b - a > 1e-7 {
        if f1 <= f2 {
            (b, x2, f2) = (x2, x1, f1);
            x1 = b - ratio * (b - a);
            f1 = f(x1);
        } else {
            (a, x1, f1) = (x1, x2, f2);
            x2 = a + ratio * (b - a);
            f2 = f(x2);
        }
        // On brackets far from zero the points can no longer part.
        if x1 >= x2 {
            break;
        }
    }
    if f1 <= f2 { (f1, x1) } else { (f2, x2) }
}
