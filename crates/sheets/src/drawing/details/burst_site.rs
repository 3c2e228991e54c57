//! Site layout of a main that is burst: pits, the string that lies ready, what is opened.

use project::Renewal;

use super::kit::Sample;
use super::renewal_plan::{empty, sheets};
use super::street::{Shows, extent, laid};
use crate::Subject;
use crate::scene::{Drawing, Layer};

pub(super) fn draw(subject: &Subject<'_>, renewal: &Renewal) -> Drawing {
    let mut reach = extent(renewal);
    for run in &renewal.runs {
        let onward = if run.machine > run.launch { 1.0 } else { -1.0 };
        let tail = run.launch.si() - onward * laid(renewal, run).1;
        reach = (reach.0.min(tail), reach.1.max(tail));
    }
    let mut notes = vec![
        "Only what the design file tells is drawn: it holds no areas for machine, spoil, traffic or storage. None are invented here.".to_owned(),
        "The string that lies ready is drawn beside the line with its length; its true place is not in the file.".to_owned(),
        "Filled squares are opened before the head comes; every service is dug up where the list says so.".to_owned(),
        "Developed along the chainage, drawn straight. Offsets to the right, looking along the chainage, are drawn downwards.".to_owned(),
        "Keep people out of both pits and off the line of the rods while they move.".to_owned(),
    ];
    notes.extend(empty(renewal));
    let entries = [
        (Sample::Line(Layer::Site), "pit; service"),
        (Sample::Line(Layer::Host), "old main"),
        (Sample::Line(Layer::Pipe), "new main; string that lies ready"),
        (Sample::Line(Layer::Obstacle), "neighbour; square: feature"),
    ];
    sheets(subject, renewal, Shows::Site, reach, &notes, &entries)
}
