//! Obstacles, what must stay clear around them, and how near the bore comes.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use assess::{Check, Status};
use ground::{Obstacle, Shape};
use quantity::Length;

use super::Section;
use crate::drawing::key::Swatch;
use crate::drawing::labels::Prefer;
use crate::drawing::parts::clearance_check;
use crate::scene::{Layer, Mark, Point, SymbolKind};

/// A name that waits for its place.
pub(super) struct Name {
    at: Point,
    lines: Vec<String>,
}

/// Draws obstacles with their clearance; gives the names to be placed.
pub(super) fn shapes(section: &mut Section<'_>) -> Vec<Name> {
    let (left, right) = section.canvas.across();
    let project = section.project;
    let ids = project::obstacle_ids(&project.site.obstacles);
    let mut names = Vec::new();
    for (obstacle, id) in project.site.obstacles.iter().zip(ids) {
        let (from, to) = obstacle.shape.stretch();
        if to.si() < left || from.si() > right {
            continue;
        }
        let check = clearance_check(&section.subject.assessment, &id);
        body(section, obstacle);
        if let Some(clearance) = obstacle.clearance.map(Length::si).filter(|c| *c > 0.0) {
            let around = envelope(section, obstacle, clearance);
            section.canvas.push(Mark::path(Layer::Clearance, around));
        }
        if let Some(at) = check.and_then(|c| c.at) {
            distance(section, obstacle, at);
        }
        names.push(Name { at: top_of(section, obstacle), lines: words(section, obstacle, check) });
    }
    if !names.is_empty() {
        section.key.push((Swatch::Line(Layer::Obstacle), "obstacle".to_owned()));
        section.notes.push(
            "Clearances of obstacles are least distances from the edge of the reamed bore less the allowance for its uncertain position."
                .to_owned(),
        );
    }
    names
}

fn ground_level(section: &Section<'_>, x: f64) -> f64 {
    section.project.site.ground.level_extended(Length::from_si(x)).si()
}

fn body(section: &mut Section<'_>, obstacle: &Obstacle) {
    match obstacle.shape {
        Shape::Above { from, to, underside } => {
            let (a, b, z) = (from.si(), to.si(), underside.si());
            // A short stroke up shows on which side of the line the obstacle is.
            let stroke = section.canvas.view.up(3.0);
            let up = |x: f64| ground_level(section, x).max(z + stroke);
            let points = vec![
                Point::new(a, up(a)),
                Point::new(a, z),
                Point::new(b, z),
                Point::new(b, up(b)),
            ];
            section.canvas.avoid(&points);
            section.canvas.push(Mark::path(Layer::Obstacle, points));
        }
        Shape::Round { at, level, diameter } => {
            let (x, z, r) = (at.si(), level.si(), diameter.si() / 2.0);
            let points = circle(x, z, r, 0.0, TAU);
            section.canvas.push(Mark::outline(Layer::Obstacle, points));
            // A cable on a small scale would not be seen.
            let least = section.canvas.view.across(0.4);
            if r < least {
                let at = Point::new(x, z);
                section.canvas.push(Mark::symbol(Layer::Obstacle, at, SymbolKind::Tangent, 1.2));
            }
        }
    }
}

fn circle(x: f64, z: f64, r: f64, from: f64, to: f64) -> Vec<Point> {
    const PIECES: u32 = 36;
    (0..=PIECES)
        .map(|i| {
            let angle = from + (to - from) * f64::from(i) / f64::from(PIECES);
            Point::new(x + r * angle.cos(), z + r * angle.sin())
        })
        .collect()
}

/// All that lies within the required clearance.
fn envelope(section: &Section<'_>, obstacle: &Obstacle, clearance: f64) -> Vec<Point> {
    match obstacle.shape {
        Shape::Above { from, to, underside } => {
            let (a, b, z) = (from.si(), to.si(), underside.si());
            let left = ground_level(section, a - clearance).max(z);
            let right = ground_level(section, b + clearance).max(z);
            let mut points = vec![Point::new(a - clearance, left)];
            points.extend(circle(a, z, clearance, PI, PI + FRAC_PI_2));
            points.extend(circle(b, z, clearance, PI + FRAC_PI_2, TAU));
            points.push(Point::new(b + clearance, right));
            points
        }
        Shape::Round { at, level, diameter } => {
            circle(at.si(), level.si(), diameter.si() / 2.0 + clearance, 0.0, TAU)
        }
    }
}

/// The line between bore and obstacle where they are nearest.
fn distance(section: &mut Section<'_>, obstacle: &Obstacle, md: f64) {
    let station = section.project.line.sample(md);
    let axis = Point::new(station.chainage.si(), station.level.si());
    let target = match obstacle.shape {
        Shape::Above { from, to, underside } => {
            Point::new(axis.x.max(from.si()).min(to.si()), underside.si().max(axis.y))
        }
        Shape::Round { at, level, .. } => Point::new(at.si(), level.si()),
    };
    let (dx, dy) = (target.x - axis.x, target.y - axis.y);
    let length = dx.hypot(dy);
    let radius = section.project.bore.final_diameter.si() / 2.0;
    let off = match obstacle.shape {
        Shape::Round { diameter, .. } => diameter.si() / 2.0,
        Shape::Above { .. } => 0.0,
    };
    if length <= radius + off {
        return;
    }
    let along = |s: f64| Point::new(axis.x + dx * s / length, axis.y + dy * s / length);
    let (a, b) = (along(radius), along(length - off));
    section.canvas.push(Mark::line(Layer::Dimension, a, b));
    let view = &section.canvas.view;
    let (p, q) = (view.on_paper(a), view.on_paper(b));
    let turn = (q.y - p.y).atan2(q.x - p.x);
    if (q.x - p.x).hypot(q.y - p.y) > 4.0 {
        for (at, turn) in [(b, turn), (a, turn + PI)] {
            let arrow = Mark::symbol(Layer::Dimension, at, SymbolKind::Arrow, 1.8).turned(turn);
            section.canvas.push(arrow);
        }
    }
    section.canvas.avoid(&[a, b]);
}

/// The place from which the name's leader starts.
fn top_of(section: &Section<'_>, obstacle: &Obstacle) -> Point {
    match obstacle.shape {
        Shape::Above { from, to, underside } => {
            let x = (from.si() + to.si()) / 2.0;
            Point::new(x, ground_level(section, x).max(underside.si()))
        }
        Shape::Round { at, level, diameter } => {
            Point::new(at.si(), level.si() + diameter.si() / 2.0)
        }
    }
}

fn words(section: &Section<'_>, obstacle: &Obstacle, check: Option<&Check>) -> Vec<String> {
    let reader = section.reader;
    let body = match obstacle.shape {
        Shape::Above { underside, .. } => {
            format!("{}, underside {}", obstacle.kind.word(), reader.place(underside.si()))
        }
        Shape::Round { level, diameter, .. } => format!(
            "{} {}, axis {}",
            obstacle.kind.word(),
            quantity::show_briefly(diameter.si(), quantity::unit::MM),
            reader.place(level.si())
        ),
    };
    let mut lines = vec![obstacle.name.clone(), body];
    let shown = check.and_then(|c| c.demand).map(|d| reader.place(d.value));
    let required = obstacle.clearance.map(|c| reader.place(c.si()));
    match (shown, required) {
        (Some(shown), Some(required)) => {
            lines.push(format!("clearance {shown}, required {required}"));
        }
        (Some(shown), None) => lines.push(format!("clearance {shown}, required: not given")),
        _ => {}
    }
    if check.is_some_and(|c| c.status == Status::Fail) {
        lines.push("not met".to_owned());
    }
    lines
}

/// Places the names, from left to right.
pub(super) fn labels(section: &mut Section<'_>, mut names: Vec<Name>) {
    names.sort_by(|a, b| a.at.x.total_cmp(&b.at.x));
    let mut left_out = Vec::new();
    for name in names {
        if section.canvas.label(name.at, &name.lines, Prefer::Above) {
            continue;
        }
        let brief: Vec<String> = name.lines.iter().take(1).cloned().collect();
        if section.canvas.shows(name.at) && !section.canvas.label(name.at, &brief, Prefer::Above) {
            left_out.push(name.lines.join(", "));
        }
    }
    if !left_out.is_empty() {
        section.notes.push(format!("Without room beside them: {}.", left_out.join("; ")));
    }
}
