//! The drawings of a design.

use project::Design;

use crate::Subject;
use crate::scene::Drawing;

mod band;
mod canvas;
mod details;
mod key;
mod labels;
mod long_section;
mod pages;
mod parts;
mod plan;
mod reader;
mod table;

/// Every drawing of a design, in the order of their use.
#[must_use]
pub fn drawings(subject: &Subject<'_>) -> Vec<Drawing> {
    subject.for_reader(|subject| {
        let mut list = match subject.design {
            Design::Crossing(project) => {
                vec![long_section::drawing(subject, project), plan::drawing(subject, project)]
            }
            Design::Renewal(_) => {
                [details::renewal_section(subject), details::renewal_plan(subject)]
                    .into_iter()
                    .flatten()
                    .collect()
            }
        };
        list.extend([details::cross_section(subject), details::site_layout(subject)]);
        list
    })
}
