//! What the work takes up on site, as far as the design file tells it.

use project::Design;

use super::{burst_site, drilling_site};
use crate::Subject;
use crate::scene::Drawing;

/// The site layout of either technique.
#[must_use]
pub fn site_layout(subject: &Subject<'_>) -> Drawing {
    subject.for_reader(|subject| match subject.design {
        Design::Crossing(project) => drilling_site::draw(subject, project),
        Design::Renewal(renewal) => burst_site::draw(subject, renewal),
    })
}
