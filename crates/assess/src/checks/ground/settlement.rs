use ground::{GroundError, Obstacle, Trough, annulus_loss_volume};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::under::{Under, trough_factor, under};
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::from_line;

const TROUGH: Source =
    Source::new("trough of the shape of a bell curve, as for tunnels", Evidence::FromMemory);
const GEOMETRY: Source = super::super::GEOMETRY;

/// Settlement of an obstacle from the annulus that closes around the pipe.
pub(super) fn check(c: &Context<'_>, index: usize, obstacle: &Obstacle, id: &str) -> Item {
    let p = c.project;
    let key = format!("/site/obstacle/{index}/settlement_limit");
    let about = About::new(
        format!("ground.settlement.{id}"),
        format!("settlement of {} ({})", obstacle.name, obstacle.kind.word()),
        Stage::InService,
        TROUGH,
    );
    let places = match &c.fluid().places {
        Ok(places) => places,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let (bore, barrel) = (p.bore.final_diameter, p.string.pipe.barrel_diameter());
    let share = p.factors.ground.annulus_closing;
    let volume = match annulus_loss_volume(bore, barrel, share) {
        Ok(volume) => volume,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let trough_at = |under: Under| -> Option<Result<_, GroundError>> {
        let at = places.list.get(under.index)?;
        let factor = trough_factor(p, places, at, under.level);
        if under.depth.si() <= 0.0 {
            return Some(Ok((under, at, factor, None)));
        }
        let trough = Trough::new(volume, under.depth, factor);
        Some(trough.map(|trough| (under, at, factor, Some(trough))))
    };
    let all: Result<Vec<_>, _> =
        under(places, obstacle).into_iter().filter_map(trough_at).collect();
    let all = match all {
        Ok(all) => all,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let greatest = |t: &Option<Trough>| t.as_ref().map_or(Length::ZERO, Trough::greatest);
    // The first of equal ones.
    let worst = all
        .into_iter()
        .reduce(|best, next| if greatest(&next.3) > greatest(&best.3) { next } else { best });
    let Some((under, at, factor, trough)) = worst else {
        return about.not_assessed(&[], "the bore does not pass it in the ground");
    };
    let settlement = greatest(&trough);
    let mm = |v: Length| Reading::new(v.si(), unit::MM);
    let Some(limit) = obstacle.settlement_limit else {
        return about
            .not_assessed(&[&key], "the settlement that it bears is not given")
            .acting(mm(settlement))
            .at(at.md);
    };
    let because = match &trough {
        None => "the bore passes above it: the trough lies over the bore".to_owned(),
        Some(trough) => format!(
            "{} below it {} of the annulus close, {}; the trough is {} wide, its steepest slope {}",
            under.depth,
            quantity::show_briefly(share, unit::PERCENT),
            quantity::show_briefly(volume, unit::L_PER_M),
            trough.half_width() * 2.0,
            quantity::show_briefly(trough.greatest_slope(), unit::PERCENT)
        ),
    };
    about
        .at_most(mm(settlement), mm(limit), p.factors.attention, because)
        .at(at.md)
        .worked(c.working(|w| {
            w.given("D_f", "final bore", bore.si(), unit::MM);
            c.barrel(w);
            w.given_from("k_c", "share of the annulus that closes", share, unit::ONE, p.source_of("/factors/ground/annulus_closing"));
            w.result("V", "volume lost per length", "k_c*pi/4*(D_f^2 - D^2)", volume, unit::L_PER_M, GEOMETRY);
            from_line(w, "z_0", "from the axis up to the obstacle", under.depth.si(), unit::M);
            if trough.is_some() {
                let why = Source::new("mean of the soils above by thickness, trough_fine and trough_granular", Evidence::FromMemory);
                w.given_from("K", "half-width over depth", factor, unit::ONE, why);
                w.derive("i", "half-width to the point of inflection", "K*z_0", unit::M, TROUGH);
                w.result("S_max", "greatest settlement", "V/(i*sqrt(2*pi))", settlement.si(), unit::MM, TROUGH);
            } else {
                w.derive("S_max", "settlement of what lies below the bore", "0*z_0", unit::MM, TROUGH);
            }
            w.given("S_lim", "settlement that it bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "S_max/S_lim", unit::ONE, GEOMETRY);
        }))
        .note("From closing of the annulus only: ground lost by over-cutting or collapse comes on top, and is the usual cause of large settlement. Grout the annulus where little is allowed.")
}
