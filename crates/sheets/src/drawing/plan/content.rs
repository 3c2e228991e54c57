//! The line in plan: bore, axis, ticks, ends, bends.

use project::Project;

use crate::drawing::canvas::Canvas;
use crate::drawing::key::{Entry, Swatch};
use crate::drawing::labels::Prefer;
use crate::drawing::pages::Page;
use crate::drawing::parts::{
    MOST_NUMBERED, entry_in_grid, md_at, md_samples, plan_stretches, tangent_points,
};
use crate::drawing::reader::{Reader, multiples};
use crate::scene::{Layer, Mark, Pattern, Point, SymbolKind};

/// What all parts of one sheet need.
pub(super) struct Ground<'a> {
    pub(super) project: &'a Project,
    pub(super) reader: Reader,
    pub(super) page: Page,
    pub(super) canvas: Canvas,
    pub(super) key: Vec<Entry>,
}

impl Ground<'_> {
    /// The point to the right of the line at a chainage; beside the ends the line goes on straight.
    pub(super) fn beside(&self, chainage: f64, right: f64) -> Point {
        let line = &self.project.line;
        let run = line.run().si();
        let station = line.sample(md_at(line, chainage));
        let beyond = chainage - chainage.max(0.0).min(run);
        let (sin, cos) = station.azimuth.si().sin_cos();
        let entry = entry_in_grid(self.project);
        Point::new(
            entry.x + station.position.x + beyond * sin + right * cos,
            entry.y + station.position.y + beyond * cos - right * sin,
        )
    }

    /// Chainages that the view may show.
    pub(super) fn shown(&self) -> (f64, f64) {
        let beyond = self.canvas.view.across(super::BESIDE);
        (self.page.from - beyond, self.page.to + beyond)
    }
}

/// Draws bore, axis, ends and tangent points.
pub(super) fn draw(ground: &mut Ground<'_>) {
    let line = &ground.project.line;
    let radius = ground.project.bore.final_diameter.si() / 2.0;
    let (from, to) = ground.shown();
    let chainages: Vec<f64> =
        md_samples(line, from, to).into_iter().map(|md| line.sample(md).chainage.si()).collect();
    let edge =
        |right: f64| -> Vec<Point> { chainages.iter().map(|x| ground.beside(*x, right)).collect() };
    let (left, right, axis) = (edge(-radius), edge(radius), edge(0.0));
    let ring = left.iter().copied().chain(right.iter().rev().copied()).collect();
    ground.canvas.push(Mark::area(Layer::Bore, ring, Pattern::Fluid));
    ground.canvas.avoid(&axis);
    ground.canvas.push(Mark::path(Layer::Bore, left));
    ground.canvas.push(Mark::path(Layer::Bore, right));
    ground.canvas.push(Mark::path(Layer::Axis, axis));
    let size = quantity::show_briefly(2.0 * radius, quantity::unit::MM);
    ground.key.push((Swatch::Line(Layer::Bore), format!("wall of the bore, diameter {size}")));
    ground.key.push((Swatch::Line(Layer::Axis), "axis of the bore".to_owned()));
    let points = tangent_points(line);
    for point in &points {
        sign(ground, point.chainage, SymbolKind::Tangent, 1.6);
    }
    if !points.is_empty() {
        let words = "tangent point of profile or plan".to_owned();
        ground.key.push((Swatch::Sign(Layer::Axis, SymbolKind::Tangent), words));
    }
    for chainage in [0.0, line.run().si()] {
        sign(ground, chainage, SymbolKind::End, 2.6);
    }
    zones(ground);
}

fn sign(ground: &mut Ground<'_>, chainage: f64, kind: SymbolKind, size: f64) {
    let at = ground.beside(chainage, 0.0);
    if ground.canvas.shows(at) {
        ground.canvas.push(Mark::symbol(Layer::Axis, at, kind, size));
        ground.canvas.take_sign(at, size);
    }
}

/// End zones as strokes across the line.
fn zones(ground: &mut Ground<'_>) {
    let site = &ground.project.site;
    let run = ground.project.line.run().si();
    let half = ground.canvas.view.across(5.0);
    let ends = [(site.end_zone_entry.si(), 0.0), (run - site.end_zone_exit.si(), run)];
    for (inner, outer) in ends {
        if (inner - outer).abs() < 1e-9 {
            continue;
        }
        let stroke = vec![ground.beside(inner, -half), ground.beside(inner, half)];
        ground.canvas.push(Mark::path(Layer::Clearance, stroke));
    }
    ground.key.push((Swatch::Line(Layer::Clearance), "inner end of an end zone".to_owned()));
}

/// Ticks at round chainages, each with its figure where there is room.
pub(super) fn ticks(ground: &mut Ground<'_>) {
    let step = ground.reader.step(ground.canvas.view.across(10.0));
    let (tick, off) = (ground.canvas.view.across(1.2), ground.canvas.view.across(1.2));
    for chainage in multiples(ground.page.from, ground.page.to, step) {
        let ends = vec![ground.beside(chainage, -tick), ground.beside(chainage, tick)];
        ground.canvas.push(Mark::path(Layer::Axis, ends));
        let at = ground.beside(chainage, off);
        let words = ground.reader.round(chainage, step);
        ground.canvas.label_within(at, &[words], Prefer::Below, 3.0);
    }
}

/// Words on ends and bends.
pub(super) fn labels(ground: &mut Ground<'_>) {
    let line = &ground.project.line;
    let reader = ground.reader;
    for (chainage, name) in [(0.0, "Entry, rig side"), (line.run().si(), "Exit, pipe side")] {
        let at = ground.beside(chainage, 0.0);
        let words = [name.to_owned(), format!("chainage {}", reader.place(chainage))];
        ground.canvas.label(at, &words, Prefer::Below);
    }
    let bends = plan_stretches(line);
    if bends.len() <= MOST_NUMBERED {
        for bend in bends.iter().filter(|b| b.radius.is_some()) {
            let side = if bend.turn > 0.0 { "to the right" } else { "to the left" };
            let at = line.sample(bend.middle()).chainage.si();
            let words = format!("{} {side}", bend.words(reader));
            ground.canvas.label(ground.beside(at, 0.0), &[words], Prefer::Below);
        }
    }
    let points = tangent_points(line);
    if points.len() <= MOST_NUMBERED {
        for point in points {
            let at = ground.beside(point.chainage, 0.0);
            ground.canvas.label_within(at, &[point.name], Prefer::Above, 20.0);
        }
    }
}
