//! Which levels a section shows, and how much higher than true it is drawn.

use ground::Shape;
use project::Project;

use crate::drawing::pages::Page;
use crate::drawing::parts::{in_section, md_samples};

/// Lowest and highest level that must be seen, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    pub(super) low: f64,
    pub(super) high: f64,
}

impl Levels {
    /// The levels of a sheet.
    pub(super) fn of(project: &Project, page: &Page) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let mut see = |level: f64| {
            low = low.min(level);
            high = high.max(level);
        };
        let radius = project.bore.final_diameter.si() / 2.0;
        for md in md_samples(&project.line, page.from, page.to) {
            let level = in_section(&project.line, md).y;
            see(level - radius);
            see(level + radius);
        }
        let site = &project.site;
        for x in [page.from, page.to] {
            see(site.ground.level_extended(quantity::Length::from_si(x)).si());
        }
        for (x, level) in site.ground.points() {
            if x.si() >= page.from && x.si() <= page.to {
                see(level.si());
            }
        }
        let water = [site.free_water_level, site.low_water_level, site.groundwater_level];
        let (bore_low, top) = (low, high);
        let deep = (top - bore_low).max(1.0);
        // What lies far from all this would only make the rest small.
        let mut see_near = |level: f64| {
            if level > bore_low - 0.6 * deep && level < top + 0.4 * deep {
                low = low.min(level);
                high = high.max(level);
            }
        };
        water.into_iter().flatten().for_each(|l| see_near(l.si()));
        for obstacle in &site.obstacles {
            let (from, to) = obstacle.shape.stretch();
            if to.si() < page.from || from.si() > page.to {
                continue;
            }
            match obstacle.shape {
                Shape::Above { underside, .. } => see_near(underside.si()),
                Shape::Round { level, diameter, .. } => {
                    see_near(level.si() - diameter.si() / 2.0);
                    see_near(level.si() + diameter.si() / 2.0);
                }
            }
        }
        for boring in project.strata.iter().flat_map(ground::GroundModel::borings) {
            if boring.chainage.si() >= page.from && boring.chainage.si() <= page.to {
                see_near(boring.level.si());
                // The end of a deep boring is named beside it.
                see_near(boring.end().si().max(bore_low - 0.3 * deep));
            }
        }
        Self { low: low - 0.05 * deep, high }
    }

    pub(super) fn height(&self) -> f64 {
        self.high - self.low
    }
}

/// Height on paper from which a section reads well, mm.
// Judgement: strata of a metre and labels between them ask for about a quarter of the sheet.
const READABLE: f64 = 60.0;
/// Steepest that the ends of the bore may look, tangent.
// Judgement: beyond 63 deg a shallow bore looks like a shaft.
const STEEPEST: f64 = 2.0;

/// How many times higher than true: the least of 1, 2, 5 and 10 that reads well, or the most that fits.
pub(super) fn exaggeration(project: &Project, levels: &Levels, scale: f64, room: f64) -> f64 {
    let line = &project.line;
    let end = line.length().si();
    let steep = [0.0, end].map(|md| line.sample(md).inclination.si().tan().abs());
    let steep = steep[0].max(steep[1]);
    let mut best = 1.0;
    for times in [1.0, 2.0, 5.0, 10.0] {
        let height = levels.height() * 1000.0 / scale * times;
        if height > room || (times > 1.0 && steep * times > STEEPEST) {
            break;
        }
        best = times;
        if height >= READABLE {
            break;
        }
    }
    best
}
