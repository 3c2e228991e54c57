//! The bore: wall, axis, tangent points, angles, radii, the lowest place and where checks fail.

use super::Section;
use crate::drawing::key::Swatch;
use crate::drawing::labels::Prefer;
use crate::drawing::parts::{
    MOST_NUMBERED, failures, in_section, md_at, md_samples, profile_stretches, tangent_points,
};
use crate::drawing::reader::degrees;
use crate::scene::{Layer, Mark, Pattern, Point, SymbolKind};

/// Draws the bore.
pub(super) fn draw(section: &mut Section<'_>) {
    let line = &section.project.line;
    let radius = section.project.bore.final_diameter.si() / 2.0;
    let (from, to) = section.canvas.across();
    let (mut crown, mut invert, mut axis) = (Vec::new(), Vec::new(), Vec::new());
    // There is no bore above the ground.
    let below = |x: f64, y: f64| {
        let ground = section.project.site.ground.level_extended(quantity::Length::from_si(x));
        Point::new(x, y.min(ground.si()))
    };
    for md in md_samples(line, from, to) {
        let place = in_section(line, md);
        let (sin, cos) = line.sample(md).inclination.si().sin_cos();
        axis.push(place);
        crown.push(below(place.x - radius * sin, place.y + radius * cos));
        invert.push(below(place.x + radius * sin, place.y - radius * cos));
    }
    let ring: Vec<Point> = crown.iter().copied().chain(invert.iter().rev().copied()).collect();
    section.canvas.push(Mark::area(Layer::Bore, ring, Pattern::Fluid));
    for edge in [&crown, &invert, &axis] {
        section.canvas.avoid(edge);
    }
    section.canvas.push(Mark::path(Layer::Bore, crown));
    section.canvas.push(Mark::path(Layer::Bore, invert));
    section.canvas.push(Mark::path(Layer::Axis, axis));
    let size = quantity::show_briefly(2.0 * radius, quantity::unit::MM);
    section.key.push((Swatch::Line(Layer::Bore), format!("wall of the bore, diameter {size}")));
    section.key.push((Swatch::Line(Layer::Axis), "axis of the bore".to_owned()));
    let points = tangent_points(line);
    for point in &points {
        sign(section, point.md, SymbolKind::Tangent, 1.6);
    }
    if !points.is_empty() {
        let words = "tangent point".to_owned();
        section.key.push((Swatch::Sign(Layer::Axis, SymbolKind::Tangent), words));
    }
    for md in [0.0, line.length().si()] {
        sign(section, md, SymbolKind::End, 2.6);
    }
}

fn sign(section: &mut Section<'_>, md: f64, kind: SymbolKind, size: f64) {
    let at = in_section(&section.project.line, md);
    if section.canvas.shows(at) {
        section.canvas.push(Mark::symbol(Layer::Axis, at, kind, size));
        section.canvas.take_sign(at, size);
    }
}

/// Words on the bore, the most needed first.
pub(super) fn labels(section: &mut Section<'_>) {
    failing(section);
    ends(section);
    let (line, reader) = (&section.project.line, section.reader);
    let lowest = line.lowest();
    let at = in_section(line, lowest.md.si());
    let words = [
        format!("lowest axis level {}", reader.place(at.y)),
        format!("from chainage {}", reader.place(at.x)),
    ];
    section.canvas.label(at, &words, Prefer::Below);
    let stretches = profile_stretches(line);
    if stretches.len() <= MOST_NUMBERED {
        for stretch in stretches.iter().filter(|s| s.radius.is_some()) {
            // On a part of the line the arc is named at the middle of what is seen.
            let (from, to) = section.canvas.across();
            let seen = (stretch.md.0.max(md_at(line, from)), stretch.md.1.min(md_at(line, to)));
            if seen.1 > seen.0 {
                let at = in_section(line, f64::midpoint(seen.0, seen.1));
                section.canvas.label(at, &[stretch.words(reader)], Prefer::Below);
            }
        }
    }
    let points = tangent_points(line);
    if points.len() <= MOST_NUMBERED {
        for point in points {
            let at = in_section(line, point.md);
            section.canvas.label_within(at, &[point.name], Prefer::Below, 20.0);
        }
    }
}

/// Entry and exit with level and angle.
fn ends(section: &mut Section<'_>) {
    let (line, reader) = (&section.project.line, section.reader);
    let ends = [
        (0.0, "Entry, rig side", "entry", 1.0),
        (line.length().si(), "Exit, pipe side", "exit", -1.0),
    ];
    for (md, name, end, inwards) in ends {
        let at = in_section(line, md);
        let inclination = line.sample(md).inclination.si();
        let words = [
            name.to_owned(),
            format!("level {}", reader.place(at.y)),
            format!("{end} angle {}", degrees(-inwards * inclination)),
        ];
        section.canvas.label(at, &words, Prefer::Above);
        if section.canvas.shows(at) {
            let arm = Point::new(at.x + inwards * section.canvas.view.across(16.0), at.y);
            section.canvas.push(Mark::line(Layer::Dimension, at, arm));
        }
    }
}

/// Where checks fail.
fn failing(section: &mut Section<'_>) {
    let line = &section.project.line;
    let within = section.canvas.view.across(3.0);
    let groups = failures(&section.subject.assessment, within);
    let mut shown = false;
    for (md, ids) in groups {
        let at = in_section(line, md);
        if !section.canvas.shows(at) {
            continue;
        }
        shown = true;
        section.canvas.push(Mark::symbol(Layer::Text, at, SymbolKind::NotMet, 4.0));
        section.canvas.take_sign(at, 4.0);
        let words: Vec<String> = std::iter::once("not met".to_owned())
            .chain(ids.into_iter().map(str::to_owned))
            .collect();
        section.canvas.label(at, &words, Prefer::Below);
    }
    if shown {
        let words = "worst place of a check that is not met".to_owned();
        section.key.push((Swatch::Sign(Layer::Text, SymbolKind::NotMet), words));
    }
}
