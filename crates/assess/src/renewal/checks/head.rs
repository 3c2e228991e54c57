//! Expander, class of difficulty, length of the runs.

use ground::SoilGroup;
use project::Run;
use pull::bursting::{self, Difficulty, DifficultyClass, DifficultyEdition, Soil, difficulty};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::{Context, mm};

const SOCKETS: Source = Source::new(
    "the expander is at least as large as the sockets, one manufacturer's trenchless manual, p. 48",
    Evidence::Published,
);

/// Whether the expander reaches the sockets.
pub(super) fn expander(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about = About::new(
        "burst.expander",
        "expander against the sockets of the new main",
        Stage::Design,
        SOCKETS,
    )
    .rule();
    let expander = match c.expander() {
        Ok(expander) => expander,
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
    };
    let Some(socket) = r.string.pipe.largest_diameter() else {
        return about.not_assessed(&["/string/socket_diameter"], "the socket is not known");
    };
    let hosts = || r.runs.iter().flat_map(|run| c.stretches_of(run));
    let bores = || hosts().map(|s| s.inside_diameter);
    let outsides = hosts().map(|s| s.inside_diameter + s.wall * 2.0);
    let all =
        (bores().reduce(Length::min), bores().reduce(Length::max), outsides.reduce(Length::max));
    let (Some(host), Some(widest), Some(outside)) = all else {
        return about.not_assessed(&["/host/stretch"], "no stretch of the old main lies in a run");
    };
    // Equal to the bore it touches nothing, either.
    let idle = expander <= widest;
    let buried = !idle && expander <= outside;
    let volume = bursting::displaced_volume(expander.max(host), host).unwrap_or(f64::NAN);
    let upsize = bursting::equivalent_plastic_size(expander, bursting::PlasticSeries::Metric);
    let like = upsize.map_or(String::new(), |size| {
        format!(
            "; a smooth plastic pipe of {} would need as large a head",
            mm(size.outside_diameter)
        )
    });
    let because = format!(
        "{} over sockets of {} in a bore of {}: the head pushes {} of ground aside{}{like}",
        mm(expander),
        mm(socket),
        mm(host),
        quantity::show_briefly(volume, unit::L_PER_M),
        if idle {
            format!(
                "; it is not larger than a bore of {} and would not touch the old main there",
                mm(widest)
            )
        } else if buried {
            format!(
                "; it is not larger than the outside of the old main, {}: fragments may not clear the string",
                mm(outside)
            )
        } else {
            String::new()
        }
    );
    let least = socket.max(widest);
    let reading = |v: Length| Reading::new(v.si(), unit::MM);
    about
        .at_least(reading(expander), reading(least), r.factors.attention, because)
        .fail_when(idle)
        .attend(buried)
        .worked(c.working(|w| {
            w.given_from("D_e", "expander", expander.si(), unit::MM, r.source_of("/burst/expander_diameter"));
            w.given_from("D_s", "socket with its protection", socket.si(), unit::MM, Source::new("pipe and protection", Evidence::Computed));
            w.given("d_i", "smallest bore of the old main", host.si(), unit::MM);
            w.result("V_e", "ground displaced per length", "pi/4*(max(D_e, d_i)^2 - d_i^2)", volume, unit::L_PER_M, bursting::GROUND_VOLUME.source());
            w.given("d_w", "widest bore of the old main", widest.si(), unit::MM);
            w.derive("U", "utilisation", "max(D_s, d_w)/D_e", unit::ONE, RATIO);
        }))
        .note("The inside of the old main counts: its wall stays in the ground as fragments. Socketed pipe of the same nominal size is an upsize.")
}

fn number(class: DifficultyClass) -> f64 {
    match class {
        DifficultyClass::A => 1.0,
        DifficultyClass::B => 2.0,
        DifficultyClass::C => 3.0,
    }
}

fn letter(class: DifficultyClass) -> &'static str {
    match class {
        DifficultyClass::A => "A",
        DifficultyClass::B => "B",
        DifficultyClass::C => "C",
    }
}

/// Class of difficulty of the hardest run.
pub(super) fn class(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about = About::new(
        "burst.class",
        "class of difficulty of the hardest run",
        Stage::Design,
        bursting::DIFFICULTY.source(),
    )
    .rule();
    let expander = match c.expander() {
        Ok(expander) => expander,
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
    };
    let sizes = match bursting::sizes_up(expander, r.host.nominal_diameter) {
        Ok(sizes) => sizes,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let of_run = |run: &Run| {
        let depths = c.places(run).into_iter().map(|x| c.axis_depth(x));
        let depth = depths.reduce(Length::max).unwrap_or(Length::ZERO);
        let job = Difficulty {
            depth,
            host_nominal: r.host.nominal_diameter,
            sizes_up: f64::from(sizes),
            length: run.length(),
            trench: r.fill.trench_width.map(|width| (width, expander)),
            soil: Some(match r.soil().map(|s| s.kind.group()) {
                Some(SoilGroup::Fine) => Soil::Compressible,
                _ if r.fill.dense => Soil::ModeratelyCompressible,
                _ => Soil::Compressible,
            }),
            edition: DifficultyEdition::Asce2007,
        };
        difficulty(&job).map(|classes| (classes, depth))
    };
    let mut worst = None;
    for run in &r.runs {
        match of_run(run) {
            Err(e) => return about.not_assessed(&[], e.to_string()),
            Ok((classes, depth)) => {
                let harder = worst.as_ref().is_none_or(
                    |(_, w, _): &(&Run, bursting::DifficultyClasses, Length)| {
                        number(classes.overall) > number(w.overall)
                    },
                );
                if harder {
                    worst = Some((run, classes, depth));
                }
            }
        }
    }
    let Some((run, k, depth)) = worst else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let because = format!(
        "run {}: {} by the worst criterion (depth {}, host {}, upsize {}, length {}{}{}){}; edition ASCE 2007",
        run.name,
        letter(k.overall),
        letter(k.depth),
        letter(k.host),
        letter(k.new_pipe),
        letter(k.length),
        k.trench.map_or(String::new(), |t| format!(", trench {}", letter(t))),
        k.soil.map_or(String::new(), |s| format!(", ground {}", letter(s))),
        if k.combined { "; two or more criteria together" } else { "" }
    );
    let one = |v: f64| Reading::new(v, unit::ONE);
    about
        .at_most(one(number(k.overall)), one(3.0), r.factors.attention, because)
        .attend(k.overall == DifficultyClass::C || k.combined)
        .worked(c.working(|w| {
            w.found("h", "greatest depth of the axis", "ground line less axis", depth.si(), unit::M, Source::new("levels of the file", Evidence::Derived));
            w.given("L", "length of the run", run.length().si(), unit::M);
            w.found("n", "sizes up by the expander, not by the nominal size", "least plastic pipe whose usual expander is as large", f64::from(sizes), unit::ONE, bursting::EQUIVALENT_SIZE.source());
            w.found("k", "class: 1 is A, 2 is B, 3 is C", "worst criterion", number(k.overall), unit::ONE, bursting::DIFFICULTY.source());
            w.given_from("k_max", "highest class that there is: none is ruled out", 3.0, unit::ONE, Source::new("C asks for attention and forbids nothing", Evidence::Judgement));
            w.derive("U", "utilisation", "k/k_max", unit::ONE, RATIO);
        }))
        .note("A routine, B moderately difficult, C challenging. Other editions set other lengths (300 and 450 ft, 350 and 500 ft; from memory).")
}

/// Longest run.
pub(super) fn run_length(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let key = "/factors/longest_run";
    let about =
        About::new("burst.run-length", "longest run between pits", Stage::Design, r.source_of(key));
    let Some(run) = r.runs.iter().max_by(|a, b| a.length().si().total_cmp(&b.length().si())) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let metres = |v: Length| Reading::new(v.si(), unit::M);
    let because = format!(
        "run {} from {} to {}, {} pipes",
        run.name,
        run.launch,
        run.machine,
        super::super::plan::pipes(c, run)
    );
    about
        .at_most(metres(run.length()), metres(r.factors.longest_run), r.factors.attention, because)
        .worked(c.working(|w| {
            w.given("x_l", "launch pit", run.launch.si(), unit::M);
            w.given("x_m", "machine pit", run.machine.si(), unit::M);
            w.result("L", "length of the run", "abs(x_m - x_l)", run.length().si(), unit::M, RATIO);
            w.given_from(
                "L_max",
                "longest run",
                r.factors.longest_run.si(),
                unit::M,
                r.source_of(key),
            );
            w.derive("U", "utilisation", "L/L_max", unit::ONE, RATIO);
        }))
        .note("Usual runs are 91 to 152 m; 300 m and more were pulled with plastic pipe.")
}
