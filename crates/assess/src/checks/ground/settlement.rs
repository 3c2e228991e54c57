use ground::{Obstacle, Trough, annulus_loss_volume};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::under::{trough_factor, under};
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
    let Some(under) = under(places, obstacle) else {
        return about.not_assessed(&[], "the bore does not pass it in the ground");
    };
    let Some(at) = places.list.get(under.index) else {
        return about.not_assessed(&[], "the bore does not pass it in the ground");
    };
    let (bore, barrel) = (p.bore.final_diameter, p.string.pipe.barrel_diameter());
    let share = p.factors.ground.annulus_closing;
    let volume = match annulus_loss_volume(bore, barrel, share) {
        Ok(volume) => volume,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let above = under.depth.si() <= 0.0;
    let factor = trough_factor(p, places, at, under.level);
    let trough = if above { None } else { Some(Trough::new(volume, under.depth, factor)) };
    let trough = match trough.transpose() {
        Ok(trough) => trough,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let settlement = trough.as_ref().map_or(Length::ZERO, Trough::greatest);
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
