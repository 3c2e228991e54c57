//! Which curves the book shows, and what they are held against.

use assess::{Assessment, Check, Profile};
use quantity::unit::{DEG, KN, KPA, M, MM};
use quantity::{System, Unit, show_with};
use sheets::Subject;

use crate::letters::{Letters, printed};
use crate::plot::{Curve, Plot, Style};

/// Longest name in a key that fits its column.
const KEY: usize = 58;

/// A plot with its words.
pub(crate) struct Shown {
    /// What it shows.
    pub(crate) title: String,
    /// The same for those who cannot see it, with the worst place.
    pub(crate) description: String,
    /// The picture.
    pub(crate) svg: String,
}

/// Every plot of a design, in the order of the work.
pub(crate) fn all(subject: &Subject<'_>, letters: &Letters) -> Vec<Shown> {
    let a = &subject.assessment;
    let maker = Maker { assessment: a, system: subject.system, letters };
    let mut list = Vec::new();
    let mut add = |shown: Option<Shown>| list.extend(shown);
    add(maker.plot(
        "Cover along the line",
        M,
        &[("line.cover", "cover over the crown of the bore", Style::Heavy)],
        "line.cover",
    ));
    add(maker.plot(
        "Ground above the new barrel",
        M,
        &[("host.cover", "ground above the new barrel", Style::Heavy)],
        "",
    ));
    for stage in a.profiles.iter().filter_map(|p| p.id.strip_prefix("fluid.pressure.")) {
        let name = a.limits.iter().find(|l| l.id == stage).map_or(stage, |l| l.name.as_str());
        let ids = [
            format!("fluid.pressure.{stage}"),
            format!("fluid.column.{stage}"),
            format!("fluid.allowed.{stage}"),
            format!("fluid.limit.overburden.{stage}"),
        ];
        let [pressure, column, allowed, weight] = &ids;
        add(maker.plot(
            &format!("Fluid against the ground, {name}"),
            KPA,
            &[
                (pressure, "pressure of the fluid", Style::Heavy),
                (column, "column of fluid alone", Style::Thin),
                (allowed, "what the fluid may press", Style::Dashed),
                (weight, "weight of all that lies above", Style::Dotted),
            ],
            &format!("fluid.limit-pressure.{stage}"),
        ));
    }
    add(maker.plot(
        "Pull, by position of the head",
        KN,
        &[
            ("pull.head-force", "at the head", Style::Heavy),
            ("pull.rig-force", "at the rig", Style::Thin),
            ("pull.head-force-expected", "at the head, expected friction", Style::Dotted),
            ("pull.restart-force", "at the head, start after a stop", Style::Mixed),
        ],
        "pull.rig",
    ));
    add(maker.plot(
        "Largest joint angle, by position of the head",
        DEG,
        &[("pull.joint-angle", "largest joint angle", Style::Heavy)],
        "line.joint-angle",
    ));
    add(maker.plot(
        "Largest force of a joint on the wall, by position of the head",
        KN,
        &[("pull.side-force", "force on the wall", Style::Heavy)],
        "",
    ));
    add(maker.plot(
        "Settlement above the bore; the scale ends above what checks allow",
        MM,
        &[("ground.settlement", "settlement of the ground", Style::Heavy)],
        "",
    ));
    for run in a.profiles.iter().filter_map(|p| p.id.strip_prefix("burst.force.rig.planning.")) {
        let name = run
            .parse::<usize>()
            .ok()
            .and_then(|n| a.runs.get(n.checked_sub(1)?))
            .map_or(run, |r| r.name.as_str());
        for (what, title, check) in [
            ("rig", "Force on the machine", "burst.force.rig"),
            ("string", "Force in the string", "pull.joint-force"),
        ] {
            let id = |end: &str| format!("burst.force.{what}.{end}.{run}");
            add(maker.plot(
                &format!("{title}, run {name}"),
                KN,
                &[
                    (&id("planning"), "planning value", Style::Heavy),
                    (&id("low"), "low end of the band", Style::Thin),
                    (&id("high"), "high end of the band", Style::Dotted),
                ],
                check,
            ));
        }
    }
    for p in a.profiles.iter().filter(|p| p.id.starts_with("burst.heave.")) {
        add(maker.plot(
            &capital(&p.title),
            MM,
            &[(&p.id, "heave of the surface", Style::Heavy)],
            "burst.heave",
        ));
    }
    if let Some(p) = a.profiles.iter().find(|p| p.id == "burst.along-pull") {
        add(maker.plot(
            &capital(&p.title),
            MM,
            &[(&p.id, "heave of the surface", Style::Heavy)],
            "",
        ));
    }
    list
}

/// A text with a capital in front.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

struct Maker<'a> {
    assessment: &'a Assessment,
    system: System,
    letters: &'a Letters,
}

impl Maker<'_> {
    fn profile(&self, id: &str) -> Option<&Profile> {
        self.assessment.profiles.iter().find(|p| p.id == id)
    }

    /// A plot of profiles against the limit of a check; `None` where the first profile is missing.
    fn plot(
        &self,
        title: &str,
        unit: Unit,
        ids: &[(&str, &str, Style)],
        check: &str,
    ) -> Option<Shown> {
        let (place, value) = (M.in_system(self.system), unit.in_system(self.system));
        let curve = |id: &str, name: &str, style| {
            let p = self.profile(id)?;
            let points: Vec<(f64, f64)> =
                p.md.iter()
                    .zip(&p.values)
                    .filter(|(x, y)| x.is_finite() && y.is_finite())
                    .map(|(x, y)| (place.from_si(*x), value.from_si(*y)))
                    .collect();
            (points.len() > 1).then(|| Curve { name: name.to_owned(), style, points })
        };
        let (first_id, first_name, first_style) = ids.first()?;
        let first = curve(first_id, first_name, *first_style)?;
        let mut curves: Vec<Curve> =
            ids.iter().filter_map(|(id, name, style)| curve(id, name, *style)).collect();
        let check = self.assessment.check(check);
        let limit = check.and_then(|c| c.limit).filter(|l| l.unit.kind() == unit.kind());
        let has_limit_curve = ids.iter().any(|(_, _, style)| *style == Style::Dashed);
        if let (Some(limit), Some(check), false) = (limit, check, has_limit_curve) {
            let (from, to) = (first.points.first()?.0, first.points.last()?.0);
            let level = value.from_si(limit.value);
            curves.push(Curve {
                name: self.letters.shortened(
                    &format!("limit of {}: {}", check.id, printed(&limit.shown(self.system))),
                    KEY,
                ),
                style: Style::Dashed,
                points: vec![(from, level), (to, level)],
            });
        }
        let worst = self.worst(first_id, check);
        // Where the bore comes to the surface a trough would be endless: the scale ends above what checks allow.
        let allowed =
            self.assessment.checks.iter().filter(|c| c.id.starts_with("ground.settlement"));
        let top = (*first_id == "ground.settlement")
            .then(|| {
                allowed
                    .filter_map(|c| Some(c.limit?.value))
                    .reduce(f64::max)
                    .map_or(50.0 * 1e-3, |v| 1.5 * v)
            })
            .map(|v| value.from_si(v));
        let axis = if self.assessment.technique == "bursting" {
            "chainage along the old main"
        } else if first_id.starts_with("pull.") {
            "measured distance of the head from the entry point"
        } else {
            "measured distance from the entry point"
        };
        let words = worst.map(|(at, v)| {
            let shown = |si, unit| printed(&show_with(si, unit, self.system));
            format!("{} at {}", shown(v, unit), shown(at, M))
        });
        let plot = Plot {
            across: format!("{axis}, {}", place.symbol()),
            up: value.symbol().to_owned(),
            worst: worst
                .zip(words.clone())
                .map(|((at, v), text)| (place.from_si(at), value.from_si(v), text)),
            curves,
            top,
        };
        let title = self.letters.line(title);
        let names: Vec<&str> = plot.curves.iter().map(|c| c.name.as_str()).collect();
        let description = format!(
            "{title}. Curves against {axis}: {}{}.",
            names.join("; "),
            words.map_or_else(String::new, |text| format!(". Place to look at: {text}")),
        );
        Some(Shown { title, description, svg: plot.svg()? })
    }

    /// The point of a profile at the place where a check is tightest, else where it is greatest.
    fn worst(&self, id: &str, check: Option<&Check>) -> Option<(f64, f64)> {
        let p = self.profile(id)?;
        let points =
            || p.md.iter().copied().zip(p.values.iter().copied()).filter(|(_, v)| v.is_finite());
        let greatest = || points().max_by(|a, b| a.1.total_cmp(&b.1));
        let same_kind = id.starts_with("fluid.") || id == "line.cover";
        match check.and_then(|c| c.at).filter(|_| same_kind) {
            Some(at) => points().min_by(|a, b| (a.0 - at).abs().total_cmp(&(b.0 - at).abs())),
            None if id == "host.cover" => points().min_by(|a, b| a.1.total_cmp(&b.1)),
            None if id == "ground.settlement" => {
                let tightest = self
                    .assessment
                    .checks
                    .iter()
                    .filter(|c| c.id.starts_with("ground.settlement") && c.at.is_some())
                    .max_by(|a, b| {
                        a.utilisation.unwrap_or(0.0).total_cmp(&b.utilisation.unwrap_or(0.0))
                    })?;
                Some((tightest.at?, tightest.demand?.value))
            }
            None => greatest(),
        }
    }
}
