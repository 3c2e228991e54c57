//! What lies beside the line in plan: grid, north, obstacles, borings, match lines.

use ground::{Boring, Shape};
use project::Project;

use super::NORTH;
use super::content::Ground;
use crate::drawing::key::Swatch;
use crate::drawing::labels::Prefer;
use crate::drawing::long_section::offset_words;
use crate::drawing::reader::multiples;
use crate::scene::{Layer, Mark, Pattern, Point, SymbolKind};

/// How far an obstacle is drawn to either side of the line, mm.
const REACH: f64 = 26.0;
/// Least distance of grid crosses, mm.
const CROSSES: f64 = 50.0;

/// The north arrow in the upper right corner.
pub(super) fn north(ground: &mut Ground<'_>) {
    let frame = ground.canvas.frame();
    let half = NORTH.1 / 2.0 + 7.0;
    let at = ground.canvas.real(Point::new(frame.right() - half, frame.top() - half));
    // North of the paper is turned with the view.
    let mark = Mark::symbol(Layer::Frame, at, NORTH.0, NORTH.1).turned(ground.canvas.view.turn);
    ground.canvas.push(mark);
    ground.canvas.take_sign(at, NORTH.1 + 11.0);
}

/// Crosses at round coordinates, with their figures where there is room.
pub(super) fn grid(ground: &mut Ground<'_>) {
    let frame = ground.canvas.frame();
    let corners = frame.corners().into_iter().map(|p| ground.canvas.real(p));
    let (mut low, mut high) = (ground.canvas.view.origin, ground.canvas.view.origin);
    for p in corners {
        (low.x, low.y) = (low.x.min(p.x), low.y.min(p.y));
        (high.x, high.y) = (high.x.max(p.x), high.y.max(p.y));
    }
    let step = ground.reader.step(ground.canvas.view.across(CROSSES));
    let arm = ground.canvas.view.across(2.0);
    for x in multiples(low.x, high.x, step) {
        for y in multiples(low.y, high.y, step) {
            let at = Point::new(x, y);
            if !ground.canvas.shows(at) {
                continue;
            }
            for (dx, dy) in [(arm, 0.0), (0.0, arm)] {
                let ends = (Point::new(x - dx, y - dy), Point::new(x + dx, y + dy));
                ground.canvas.push(Mark::line(Layer::Grid, ends.0, ends.1));
            }
            let words =
                format!("E {}  N {}", ground.reader.round(x, step), ground.reader.round(y, step));
            ground.canvas.label_within(at, &[words], Prefer::Above, 2.0);
        }
    }
}

/// Obstacles as bands across the line.
pub(super) fn obstacles(ground: &mut Ground<'_>) {
    let (left, right) = ground.shown();
    let project = ground.project;
    let reach = ground.canvas.view.across(REACH);
    let mut any = false;
    for obstacle in &project.site.obstacles {
        let (from, to) = obstacle.shape.stretch();
        if to.si() < left || from.si() > right {
            continue;
        }
        any = true;
        let (a, b) = (from.si().max(left), to.si().min(right));
        if obstacle.kind == ground::ObstacleKind::Watercourse {
            // Bands across a bend are drawn with its curve, so that both edges stay across the line.
            let side =
                |right: f64| (0..=12_u32).map(move |i| (a + (b - a) * f64::from(i) / 12.0, right));
            let ring: Vec<Point> = side(-reach)
                .chain(side(reach).rev())
                .map(|(x, right)| ground.beside(x, right))
                .collect();
            ground.canvas.push(Mark::area(Layer::Water, ring, Pattern::Water));
        }
        for x in [a, b] {
            let edge = vec![ground.beside(x, -reach), ground.beside(x, reach)];
            ground.canvas.avoid(&edge);
            ground.canvas.push(Mark::path(Layer::Obstacle, edge));
        }
        if let Shape::Round { at, .. } = obstacle.shape {
            let axis = vec![ground.beside(at.si(), -reach), ground.beside(at.si(), reach)];
            ground.canvas.push(Mark::path(Layer::Obstacle, axis));
        }
    }
    if any {
        ground.key.push((Swatch::Line(Layer::Obstacle), "edge of an obstacle".to_owned()));
    }
}

fn borings_of<'a>(ground: &Ground<'a>) -> Vec<&'a Boring> {
    let project: &'a Project = ground.project;
    let (from, to) = ground.shown();
    project
        .strata
        .iter()
        .flat_map(|model| model.borings())
        .filter(|b| b.chainage.si() >= from && b.chainage.si() <= to)
        .collect()
}

/// Borings at their offset.
pub(super) fn draw_borings(ground: &mut Ground<'_>) {
    let mut any = false;
    for boring in borings_of(ground) {
        let at = ground.beside(boring.chainage.si(), boring.offset.si());
        if ground.canvas.shows(at) {
            any = true;
            ground.canvas.push(Mark::symbol(Layer::Boring, at, SymbolKind::Boring, 2.6));
            ground.canvas.take_sign(at, 2.6);
        }
    }
    if any {
        let swatch = Swatch::Sign(Layer::Boring, SymbolKind::Boring);
        ground.key.push((swatch, "boring".to_owned()));
    }
}

/// Names of obstacles and borings.
pub(super) fn labels(ground: &mut Ground<'_>) {
    let reach = ground.canvas.view.across(REACH);
    let (left, right) = ground.shown();
    let project = ground.project;
    let reader = ground.reader;
    for obstacle in &project.site.obstacles {
        let (from, to) = obstacle.shape.stretch();
        if to.si() < left || from.si() > right {
            continue;
        }
        let middle = (from.si().max(left) + to.si().min(right)) / 2.0;
        let place = match obstacle.shape {
            Shape::Above { from, to, .. } => {
                format!("chainage {} to {}", reader.place(from.si()), reader.place(to.si()))
            }
            Shape::Round { at, .. } => format!("chainage {}", reader.place(at.si())),
        };
        let lines = [obstacle.name.clone(), format!("{}, {place}", obstacle.kind.word())];
        let ends = [(-reach, Prefer::Above), (reach, Prefer::Below)];
        for (off, prefer) in ends {
            let at = ground.beside(middle, off);
            if ground.canvas.label(at, &lines, prefer)
                || ground.canvas.label(at, &lines[..1], prefer)
            {
                break;
            }
        }
    }
    for boring in borings_of(ground) {
        let at = ground.beside(boring.chainage.si(), boring.offset.si());
        let lines = [boring.name.clone(), offset_words(reader, boring.offset.si())];
        ground.canvas.label(at, &lines, Prefer::Below);
    }
}

/// Lines at which sheets join; on the overview those between the sheets.
pub(super) fn match_lines(ground: &mut Ground<'_>) {
    if ground.page.overview {
        return;
    }
    let run = ground.project.line.run().si();
    let half = ground.canvas.view.across(45.0);
    for (x, sheet) in ground.page.neighbours(run).into_iter().flatten() {
        let ends = vec![ground.beside(x, -half), ground.beside(x, half)];
        ground.canvas.push(Mark::path(Layer::Frame, ends));
        let at = ground.beside(x, half);
        let words = format!("match line {}, sheet {sheet}", ground.reader.place(x));
        ground.canvas.label_within(at, &[words], Prefer::Below, 20.0);
    }
}
