use pull::bursting::{
    EXPANDER as EXPANDER_METHOD, GROUND_VOLUME, LUBRICANT, SocketedString, closing_volume,
    displaced_volume, expander_diameter, expansion_measure, lubricant, overcut, residual_volume,
};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{BARREL, EXACT, EXPANDER, HOST_INSIDE, LAYING_LENGTH, LENGTH, SOCKET, SOCKET_LENGTH};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static IN_SOCKET: Source =
    Source::new("socket diameter includes sleeve and cone", Evidence::Judgement);
static GAP_ALONE: Source = Source::new("the gap alone; 1 to 2 is usual", Evidence::Judgement);
const FIGURE: Source =
    Source::new("Najafi, Trenchless Technology Piping, p. 232, fig. 6.2", Evidence::Published);
const GAP: Source = Source::new("gap around the barrel, exact", Evidence::Derived);

pub(super) static BURST_EXPANDER: Worksheet = Worksheet {
    id: "burst-expander",
    title: "diameter of the expander over the new socket",
    inputs: &[
        SOCKET,
        Input::quantity(
            "sleeve",
            "s",
            "thickness of sleeve or cone over the socket",
            unit::MM,
            Range::SIZE_OR_NONE,
        )
        .or("0 mm", &IN_SOCKET),
        Input::quantity(
            "clearance",
            "c",
            "clearance on the diameter: 20 mm is usual to DN 300, 30 to 50 mm above",
            unit::MM,
            Range::SIZE_OR_NONE,
        ),
    ],
    outputs: &[Output::new("expander_diameter", "outside diameter of the expander", unit::MM)],
    source: EXPANDER_METHOD.source(),
    example: &[("socket_diameter", "239 mm"), ("clearance", "20 mm")],
    run: run_expander,
};

fn run_expander(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let d = expander_diameter(metres("socket_diameter"), metres("sleeve"), metres("clearance"))
        .map_err(|e| refused(&BURST_EXPANDER, &e))?
        .si();
    let mut w = v.open();
    let source = EXPANDER_METHOD.source();
    w.result("D_e", "outside diameter of the expander", "D_s + 2*s + c", d, unit::MM, source);
    Ok(Sheet::new(&[("expander_diameter", d)], w))
}

pub(super) static BURST_VOLUME: Worksheet = Worksheet {
    id: "burst-volume",
    title: "ground that moves aside while the expander passes",
    inputs: &[HOST_INSIDE, EXPANDER],
    outputs: &[
        Output::new("displaced", "ground that moves aside per length", unit::M3_PER_M),
        Output::new("expansion", "growth of the hole on the diameter", unit::MM),
        Output::new("diameter_ratio", "expander over the old bore", unit::ONE),
    ],
    source: GROUND_VOLUME.source(),
    example: &[("host_inside_diameter", "150 mm"), ("expander_diameter", "260 mm")],
    run: run_volume,
};

fn run_volume(v: &Values) -> Result<Sheet, Failure> {
    let host = Length::from_si(v.si("host_inside_diameter"));
    let expander = Length::from_si(v.si("expander_diameter"));
    let at = |e| refused(&BURST_VOLUME, &e);
    let displaced = displaced_volume(expander, host).map_err(at)?;
    let expansion = expansion_measure(expander, host).map_err(at)?.si();
    let mut w = v.open();
    let formula = "pi/4*(D_e - d_i)*(D_e + d_i)";
    let source = GROUND_VOLUME.source();
    w.result("V_e", "ground that moves aside", formula, displaced, unit::M3_PER_M, source);
    w.result("a", "growth of the hole", "D_e - d_i", expansion, unit::MM, FIGURE);
    let ratio = w.derive("r", "expander over the old bore", "D_e/d_i", unit::ONE, EXACT);
    Ok(Sheet::new(
        &[("displaced", displaced), ("expansion", expansion), ("diameter_ratio", ratio)],
        w,
    ))
}

pub(super) static BURST_RESIDUAL: Worksheet = Worksheet {
    id: "burst-residual",
    title: "ground that stays displaced, and that comes back",
    inputs: &[HOST_INSIDE, EXPANDER, BARREL, SOCKET, SOCKET_LENGTH, LAYING_LENGTH],
    outputs: &[
        Output::new(
            "residual",
            "stays displaced per length; negative where the ground settles",
            unit::M3_PER_M,
        ),
        Output::new("closing", "comes back as the gap closes, per length", unit::M3_PER_M),
        Output::new("overcut", "gap between expander and barrel on one side", unit::MM),
    ],
    source: GROUND_VOLUME.source(),
    example: &[
        ("host_inside_diameter", "150 mm"),
        ("expander_diameter", "260 mm"),
        ("barrel_diameter", "170 mm"),
        ("socket_diameter", "239 mm"),
        ("socket_length", "0.15 m"),
        ("laying_length", "6 m"),
    ],
    run: run_residual,
};

fn run_residual(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let (host, expander) = (metres("host_inside_diameter"), metres("expander_diameter"));
    let string = SocketedString {
        barrel_diameter: metres("barrel_diameter"),
        socket_diameter: metres("socket_diameter"),
        socket_length: metres("socket_length"),
        laying_length: metres("laying_length"),
    };
    let at = |e| refused(&BURST_RESIDUAL, &e);
    let residual = residual_volume(&string, host).map_err(at)?;
    let closing = closing_volume(expander, &string, host).map_err(at)?;
    let overcut = overcut(expander, string.barrel_diameter).map_err(at)?.si();
    let source = || GROUND_VOLUME.source();
    let mut w = v.open();
    w.derive("b", "share of the sockets", "L_s/L_p", unit::ONE, source());
    let formula = "pi/4*(D_n^2*(1 - b) + D_s^2*b)";
    w.derive("A_n", "mean section of the string", formula, unit::M2, source());
    w.derive("A_i", "section of the old bore", "pi/4*d_i^2", unit::M2, source());
    w.result("V_r", "stays displaced", "A_n - A_i", residual, unit::M3_PER_M, source());
    let formula = "pi/4*(D_e^2 - d_i^2) - V_r";
    w.result("V_c", "comes back", formula, closing, unit::M3_PER_M, source());
    w.result("o", "gap on one side", "(D_e - D_n)/2", overcut, unit::MM, FIGURE);
    Ok(Sheet::new(&[("residual", residual), ("closing", closing), ("overcut", overcut)], w))
}

pub(super) static BURST_LUBRICATION: Worksheet = Worksheet {
    id: "burst-lubrication",
    title: "lubricant for the gap behind the expander",
    inputs: &[
        EXPANDER,
        BARREL,
        HOST_INSIDE,
        LENGTH,
        Input::quantity(
            "loss_ratio",
            "r",
            "lubricant over volume of the gap, for what the ground takes",
            unit::ONE,
            Range::Within(1.0, 10.0),
        )
        .or("1", &GAP_ALONE),
    ],
    outputs: &[
        Output::new("annulus_volume", "by the gap around the barrel", unit::M3),
        Output::new("article_volume", "by the trade article, old bore for barrel", unit::M3),
    ],
    source: LUBRICANT.source(),
    example: &[
        ("expander_diameter", "260 mm"),
        ("barrel_diameter", "170 mm"),
        ("host_inside_diameter", "150 mm"),
        ("length", "100 m"),
    ],
    run: run_lubrication,
};

fn run_lubrication(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let volumes = lubricant(
        metres("expander_diameter"),
        metres("barrel_diameter"),
        metres("host_inside_diameter"),
        metres("length"),
        v.si("loss_ratio"),
    )
    .map_err(|e| refused(&BURST_LUBRICATION, &e))?;
    let (annulus, article) = (volumes.annulus.si(), volumes.article.si());
    let mut w = v.open();
    let formula = "r*pi/4*(D_e - D_n)*(D_e + D_n)*L";
    w.result("V_1", "by the gap around the barrel", formula, annulus, unit::M3, GAP);
    let formula = "r*pi/4*(D_e - d_i)*(D_e + d_i)*L";
    w.result("V_2", "by the trade article", formula, article, unit::M3, LUBRICANT.source());
    Ok(Sheet::new(&[("annulus_volume", annulus), ("article_volume", article)], w))
}
