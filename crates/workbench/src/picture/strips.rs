//! Curves on the chainage axis, below the section.

use assess::{Assessment, Check, Profile};
use serde::Serialize;

/// Some curves with one unit.
#[derive(Debug, Serialize)]
pub struct Strip {
    /// Name for scripts and tests.
    pub id: &'static str,
    /// What it shows.
    pub title: String,
    /// SI unit.
    pub unit: &'static str,
    /// The curves.
    pub curves: Vec<Curve>,
    /// Level lines that must not be crossed: what, value.
    pub limits: Vec<(String, f64)>,
}

/// A curve.
#[derive(Debug, Serialize)]
pub struct Curve {
    /// What it shows.
    pub name: String,
    /// `acts`, `expected`, `allowed`.
    pub role: &'static str,
    /// Chainage and value.
    pub points: Vec<[f64; 2]>,
}

/// Most points of a curve: more than a screen can show.
const MOST: usize = 400;

/// A curve from a profile, at most as fine as a screen; extremes are kept.
pub(super) fn curve(
    a: &Assessment,
    id: &str,
    name: &str,
    role: &'static str,
    chainage_of: &dyn Fn(f64) -> f64,
) -> Option<Curve> {
    let profile = a.profiles.iter().find(|p| p.id == id)?;
    Some(Curve { name: name.to_owned(), role, points: thinned(profile, chainage_of) })
}

fn thinned(profile: &Profile, chainage_of: &dyn Fn(f64) -> f64) -> Vec<[f64; 2]> {
    let pairs: Vec<(f64, f64)> = profile
        .md
        .iter()
        .copied()
        .zip(profile.values.iter().copied())
        .filter(|(_, v)| v.is_finite())
        .collect();
    let size = pairs.len().div_ceil(MOST / 2).max(1);
    let mut points = Vec::new();
    for chunk in pairs.chunks(size) {
        let low = chunk.iter().min_by(|a, b| a.1.total_cmp(&b.1));
        let high = chunk.iter().max_by(|a, b| a.1.total_cmp(&b.1));
        let (Some(low), Some(high)) = (low, high) else { continue };
        let (first, second) = if low.0 <= high.0 { (low, high) } else { (high, low) };
        points.push([short(chainage_of(first.0)), short(first.1)]);
        if second.0 > first.0 {
            points.push([short(chainage_of(second.0)), short(second.1)]);
        }
    }
    points
}

/// A number with six digits: finer than any screen, and short on its way there.
pub(super) fn short(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let size = 10_f64.powf(5.0 - value.abs().log10().floor());
    (value * size).round() / size
}

/// A level line from the limit of a check.
pub(super) fn limit(a: &Assessment, check: &str, name: &str) -> Option<(String, f64)> {
    let limit = a.check(check).and_then(|c: &Check| c.limit)?;
    Some((name.to_owned(), limit.value))
}

/// A strip, unless it has no curve.
pub(super) fn strip(
    id: &'static str,
    title: impl Into<String>,
    unit: &'static str,
    curves: Vec<Option<Curve>>,
    limits: Vec<Option<(String, f64)>>,
) -> Option<Strip> {
    let curves: Vec<Curve> =
        curves.into_iter().flatten().filter(|c| !c.points.is_empty()).collect();
    (!curves.is_empty()).then(|| Strip {
        id,
        title: title.into(),
        unit,
        curves,
        limits: limits.into_iter().flatten().collect(),
    })
}
