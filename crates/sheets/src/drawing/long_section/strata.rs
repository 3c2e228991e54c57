//! Strata between borings.

use std::collections::BTreeMap;

use ground::{Column, GroundModel};
use quantity::Length;

use super::Section;
use crate::drawing::key::Swatch;
use crate::drawing::labels::Prefer;
use crate::drawing::parts::pattern_of;
use crate::scene::{Layer, Mark, Point};

/// Distance of the places at which the ground is asked for, mm of paper.
const SPACING: f64 = 1.0;

/// One soil over a stretch, by its top and base.
#[derive(Debug, Clone, Default)]
struct Body {
    soil: usize,
    top: Vec<Point>,
    base: Vec<Point>,
}

/// Layers of a column that borings reach: soil, top and base.
fn known(column: &Column) -> Vec<(usize, f64, f64)> {
    column
        .layers
        .iter()
        .map(|l| (l.soil, l.top, l.base.max(column.known_to)))
        .filter(|(_, top, base)| top - base > 1e-6)
        .collect()
}

fn soils(layers: &[(usize, f64, f64)]) -> Vec<usize> {
    layers.iter().map(|l| l.0).collect()
}

/// The bodies of soil in a stretch; their outlines change where a soil begins or ends, found to a tenth of a millimetre.
fn bodies(model: &GroundModel, section: &Section<'_>) -> Vec<Body> {
    let ground = &section.project.site.ground;
    let (left, right) = section.canvas.across();
    let (from, to) = (left.max(ground.from().si()), right.min(ground.to().si()));
    if to - from < 1e-6 {
        return Vec::new();
    }
    let at = |x: f64| {
        let chainage = Length::from_si(x);
        known(&model.column(chainage, ground.level_extended(chainage)))
    };
    let step = section.canvas.view.across(SPACING);
    let mut places: Vec<f64> =
        super::super::reader::multiples(from, to, step).into_iter().collect();
    places.extend([from, to]);
    let corners = ground.points().map(|(x, _)| x.si());
    let borings = model.borings().iter().map(|b| b.chainage.si());
    places.extend(corners.chain(borings).filter(|x| *x > from && *x < to));
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let (mut done, mut open): (Vec<Body>, Vec<Body>) = (Vec::new(), Vec::new());
    let mut before: Option<f64> = None;
    for x in places {
        let here = at(x);
        if let Some(last) = before
            && soils(&at(last)) != soils(&here)
        {
            // The last place with the soils as they were.
            let wanted = soils(&at(last));
            let (mut inside, mut outside) = (last, x);
            for _ in 0..30 {
                let middle = f64::midpoint(inside, outside);
                if soils(&at(middle)) == wanted {
                    inside = middle;
                } else {
                    outside = middle;
                }
            }
            extend(&mut open, inside, &at(inside));
            done.append(&mut open);
            if soils(&at(outside)) == soils(&here) {
                extend(&mut open, outside, &at(outside));
            }
        }
        extend(&mut open, x, &here);
        before = Some(x);
    }
    done.append(&mut open);
    done
}

fn extend(open: &mut Vec<Body>, x: f64, layers: &[(usize, f64, f64)]) {
    if open.is_empty() {
        open.extend(layers.iter().map(|l| Body { soil: l.0, ..Body::default() }));
    }
    for (body, (_, top, base)) in open.iter_mut().zip(layers) {
        if body.top.last().is_none_or(|p| x > p.x) {
            body.top.push(Point::new(x, *top));
            body.base.push(Point::new(x, *base));
        }
    }
}

/// Draws the strata, and asks for them in the key.
pub(super) fn draw(section: &mut Section<'_>) {
    let Some(model) = &section.project.strata else {
        section.notes.push("No soils and borings are given: strata are not shown.".to_owned());
        return;
    };
    let mut in_key: BTreeMap<usize, ()> = BTreeMap::new();
    for body in bodies(model, section) {
        let Some(soil) = model.soils().get(body.soil) else { continue };
        let ring: Vec<Point> =
            body.top.iter().copied().chain(body.base.iter().rev().copied()).collect();
        section.canvas.push(Mark::area(Layer::Strata, ring, pattern_of(soil.kind)));
        section.canvas.push(Mark::path(Layer::Strata, body.base));
        in_key.insert(body.soil, ());
    }
    for soil in in_key.keys().filter_map(|i| model.soils().get(*i)) {
        let words = if soil.name == soil.kind.word() {
            soil.name.clone()
        } else {
            format!("{} ({})", soil.name, soil.kind.word())
        };
        let swatch = Swatch::Filling(Layer::Strata, pattern_of(soil.kind));
        section.key.push((swatch, words));
    }
    section.notes.push(
        "Strata are straight between borings and taken as level beyond the outer ones; below the borings the ground is not known."
            .to_owned(),
    );
}

/// Names of soils, where a body has room for them.
pub(super) fn labels(section: &mut Section<'_>) {
    let Some(model) = &section.project.strata else { return };
    let mut list = bodies(model, section);
    let size = |b: &Body| -> f64 { b.top.iter().zip(&b.base).map(|(t, l)| t.y - l.y).sum() };
    list.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let least = section.canvas.view.up(3.4);
    let apart = section.canvas.view.across(70.0);
    let mut named: Vec<(usize, f64)> = Vec::new();
    for body in list {
        let Some(soil) = model.soils().get(body.soil) else { continue };
        let count = body.top.len();
        // The middle first, then other places of the body.
        for share in [0.5, 0.35, 0.65, 0.2, 0.8] {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                clippy::cast_precision_loss,
                reason = "an index of a list"
            )]
            let index = (count as f64 * share) as usize;
            let (Some(top), Some(base)) = (body.top.get(index), body.base.get(index)) else {
                continue;
            };
            let at = Point::new(top.x, f64::midpoint(top.y, base.y));
            let near = |(soil, x): &(usize, f64)| *soil == body.soil && (x - at.x).abs() < apart;
            if top.y - base.y >= least
                && !named.iter().any(near)
                && section.canvas.label(at, std::slice::from_ref(&soil.name), Prefer::On)
            {
                named.push((body.soil, at.x));
                break;
            }
        }
    }
    let lowest = section.canvas.levels().0;
    let (from, to) = section.canvas.across();
    let middle = Length::from_si(f64::midpoint(from, to));
    let ground = section.project.site.ground.level_extended(middle);
    let known = model.column(middle, ground).known_to;
    if known - lowest > section.canvas.view.up(5.0) {
        let at = Point::new(middle.si(), f64::midpoint(known, lowest));
        section.canvas.label(at, &["not investigated".to_owned()], Prefer::On);
    }
}
