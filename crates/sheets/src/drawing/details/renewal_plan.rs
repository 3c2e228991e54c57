//! Plan of a main that is burst.

use project::{Design, Renewal};

use super::kit::{self, Draft, Sample, finish, free, list_sheets, note_sheets};
use super::street::{HEAD, SHARES, Shows, extent, items, pages, plan, rows};
use crate::Subject;
use crate::scene::scale::{ratio, scale_bar};
use crate::scene::{Drawing, Layer, Point, Rectangle};

/// The plan of the old main; `None` for a drilled crossing.
#[must_use]
pub fn renewal_plan(subject: &Subject<'_>) -> Option<Drawing> {
    let Design::Renewal(renewal) = subject.design else { return None };
    Some(subject.for_reader(|subject| draw(subject, renewal)))
}

fn draw(subject: &Subject<'_>, renewal: &Renewal) -> Drawing {
    let notes = notes(renewal);
    let entries = [
        (Sample::Line(Layer::Host), "old main; triangle: bend"),
        (Sample::Line(Layer::Pipe), "new main"),
        (Sample::Line(Layer::Site), "pit; service"),
        (Sample::Line(Layer::Obstacle), "neighbour; square: feature"),
    ];
    sheets(subject, renewal, Shows::Main, extent(renewal), &notes, &entries)
}

/// Sheets of a plan along the chainage, with the list of all that is numbered.
pub(super) fn sheets(
    subject: &Subject<'_>,
    renewal: &Renewal,
    shows: Shows,
    extent: (f64, f64),
    notes: &[String],
    entries: &[(Sample, &str)],
) -> Drawing {
    let (id, title) = match shows {
        Shows::Main => ("plan", "Plan of the old main"),
        Shows::Site => ("site-layout", "Site layout"),
    };
    let area = free(subject);
    let (drawn, foot) = area.cut_top(area.height * 0.56);
    let table = rows(subject, &items(subject, renewal));
    let mut drafts = Vec::new();
    let mut further = Vec::new();
    let all = pages(extent, drawn.width);
    for page in &all {
        let (view, left_out) = plan(subject, renewal, page, drawn, shows);
        let title = format!("{title}{}", page.words(subject));
        let mut draft = Draft::new(title.clone(), ratio(page.scale));
        draft.heading(Point::new(drawn.left(), drawn.top()), &title);
        draft.views.push(view);
        let bar = Point::new(drawn.left() + 2.0, drawn.bottom() + 2.0);
        draft.marks.extend(scale_bar(bar, page.scale, 60.0, subject.system).0);
        let (one, two) = foot.cut_left(foot.width * 0.58);
        let one = Rectangle::new(one.left(), one.bottom(), one.width - 5.0, one.height);
        // The list stands on the first sheet where it fits, and goes on behind the plans.
        if page.number.0 == 0 {
            let made = kit::table(one, &SHARES, &HEAD, &table);
            let left = table.get(made.drawn..).unwrap_or(&[]);
            further.extend(list_sheets(
                subject,
                &format!("{}, list", id_words(shows)),
                &SHARES,
                &HEAD,
                left,
            ));
            draft.marks.extend(made.marks);
        }
        let (legend, height) = kit::legend(two, 2, entries);
        draft.marks.extend(legend);
        let mut list = notes.to_vec();
        if !left_out.is_empty() {
            list.push(format!("Words that found no room on this sheet: {}.", left_out.join("; ")));
        }
        let made = kit::notes(two.cut_top(height + 4.0).1, "Notes", &list);
        draft.marks.extend(made.marks);
        further.extend(note_sheets(subject, "Notes", list.get(made.drawn..).unwrap_or(&[])));
        drafts.push(draft);
    }
    drafts.extend(further);
    finish(subject, id, title, drafts)
}

const fn id_words(shows: Shows) -> &'static str {
    match shows {
        Shows::Main => "Plan",
        Shows::Site => "Site layout",
    }
}

fn notes(renewal: &Renewal) -> Vec<String> {
    let mut list = vec![
        "Developed along the chainage of the old main, drawn straight: no coordinates are known. Offsets to the right, looking along the chainage, are drawn downwards.".to_owned(),
    ];
    if !renewal.host.bends.is_empty() {
        list.push("Bends stand as triangles with their angle: to which side they turn is not in the file.".to_owned());
    }
    if !renewal.host.services.is_empty() {
        list.push(
            "To which side a service goes is not in the file; services are marked on the main."
                .to_owned(),
        );
    }
    list.extend(empty(renewal));
    list
}

/// What the file does not hold.
pub(super) fn empty(renewal: &Renewal) -> Vec<String> {
    let mut list = Vec::new();
    for (none, words) in [
        (renewal.street.neighbours.is_empty(), "No neighbours are given."),
        (renewal.host.features.is_empty(), "No features of the old main are given."),
        (renewal.host.services.is_empty(), "No services are given."),
        (renewal.host.bends.is_empty(), "No bends are given."),
        (renewal.runs.is_empty(), "No runs are given."),
        (
            renewal.pit.launch_length.is_none(),
            "The length of the launch pits is not given: their place is marked by a stroke.",
        ),
        (
            renewal.pit.machine_length.is_none(),
            "The length of the machine pits is not given: their place is marked by a stroke.",
        ),
    ] {
        if none {
            list.push(words.to_owned());
        }
    }
    list.push("A pit reaches outwards from the end of its run; one between two runs is drawn about its chainage with the larger size. The file gives sizes, not the exact place.".to_owned());
    list
}
