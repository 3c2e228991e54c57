use ground::required_cover_under_road;
use line::{Field, LineError, ProfileSide, first_level, level_profile, overbend, rise_from_level};
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::{EXACT, STEEP};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) static LEVEL_LINE: Worksheet = Worksheet {
    id: "level-line",
    title: "lengths of a profile: tangent, arc, level, arc, tangent",
    inputs: &[
        Input::quantity("entry_angle", "alpha", "entry angle", unit::DEG, STEEP),
        Input::quantity("exit_angle", "beta", "exit angle", unit::DEG, STEEP),
        Input::quantity("entry_radius", "R1", "radius of the entry arc", unit::M, Range::Positive),
        Input::quantity("exit_radius", "R2", "radius of the exit arc", unit::M, Range::Positive),
        Input::quantity(
            "entry_depth",
            "d1",
            "depth of the level part below the entry",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity(
            "exit_depth",
            "d2",
            "depth of the level part below the exit",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity("run", "Lh", "horizontal length of the bore", unit::M, Range::Positive),
    ],
    outputs: &[
        Output::new("entry_tangent", "length of the entry tangent", unit::M),
        Output::new("level_length", "length of the level part", unit::M),
        Output::new("exit_tangent", "length of the exit tangent", unit::M),
        Output::new("bore_length", "length of the bore", unit::M),
        Output::new("entry_arc", "length of the entry arc", unit::M),
        Output::new("exit_arc", "length of the exit arc", unit::M),
        Output::new("entry_run", "horizontal length up to the level part", unit::M),
        Output::new("exit_run", "horizontal length after the level part", unit::M),
    ],
    source: EXACT,
    example: &[
        ("entry_angle", "12 deg"),
        ("exit_angle", "8 deg"),
        ("entry_radius", "200 m"),
        ("exit_radius", "200 m"),
        ("entry_depth", "8 m"),
        ("exit_depth", "8 m"),
        ("run", "250 m"),
    ],
    run: level_line,
};

fn level_line(v: &Values) -> Result<Sheet, Failure> {
    let side = |angle, radius, depth| ProfileSide {
        angle: Angle::from_si(v.si(angle)),
        radius: Length::from_si(v.si(radius)),
        depth: Length::from_si(v.si(depth)),
    };
    let entry = side("entry_angle", "entry_radius", "entry_depth");
    let exit = side("exit_angle", "exit_radius", "exit_depth");
    let p = level_profile(entry, exit, Length::from_si(v.si("run"))).map_err(|e| refused(&e))?;
    let mut w = v.open();
    let mut put = |symbol, meaning, formula, length: Length| {
        w.result(symbol, meaning, formula, length.si(), unit::M, EXACT)
    };
    let t1 = put("T1", "entry tangent", "(d1 - R1*(1 - cos(alpha)))/sin(alpha)", p.entry_tangent);
    let t2 = put("T2", "exit tangent", "(d2 - R2*(1 - cos(beta)))/sin(beta)", p.exit_tangent);
    let s1 = put("s1", "entry arc", "R1*alpha", p.entry_arc);
    let s2 = put("s2", "exit arc", "R2*beta", p.exit_arc);
    let x1 = put("x1", "run of the entry side", "T1*cos(alpha) + R1*sin(alpha)", p.entry_run);
    let x2 = put("x2", "run of the exit side", "T2*cos(beta) + R2*sin(beta)", p.exit_run);
    let level = put("B", "level part", "Lh - x1 - x2", p.level_length);
    let bore = put("L", "length of the bore", "T1 + s1 + B + s2 + T2", p.bore_length);
    let outputs = [
        ("entry_tangent", t1),
        ("level_length", level),
        ("exit_tangent", t2),
        ("bore_length", bore),
        ("entry_arc", s1),
        ("exit_arc", s2),
        ("entry_run", x1),
        ("exit_run", x2),
    ];
    Ok(Sheet::new(&outputs, w))
}

/// All faults in one message, with the key of the first.
fn refused(faults: &[LineError]) -> Failure {
    let key = faults.first().and_then(LineError::field).map_or("", |field| match field {
        Field::EntryAngle => "entry_angle",
        Field::ExitAngle => "exit_angle",
        Field::EntryRadius => "entry_radius",
        Field::ExitRadius => "exit_radius",
        Field::EntryDepth => "entry_depth",
        Field::ExitDepth => "exit_depth",
        Field::Run => "run",
        _ => "",
    });
    let texts: Vec<_> = faults.iter().map(ToString::to_string).collect();
    Failure::at(key, texts.join("; "))
}

const FIRST: Source = Source::new(
    "Najafi, Trenchless Technology Piping, p. 210-211, eq. 5.5 and 5.7; setback derived",
    Evidence::Published,
);

pub(super) static FIRST_LEVEL: Worksheet = Worksheet {
    id: "first-level",
    title: "depth and setback at which a bore first becomes level",
    inputs: &[
        Input::quantity(
            "rod_length",
            "l",
            "length of the first rod, straight",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity("radius", "R", "radius of the arc after it", unit::M, Range::Positive),
        Input::quantity("entry_angle", "beta", "entry angle", unit::DEG, STEEP),
    ],
    outputs: &[
        Output::new("depth", "depth below the entry point", unit::M),
        Output::new("setback", "horizontal distance from the entry point", unit::M),
    ],
    source: FIRST,
    example: &[("rod_length", "3 m"), ("radius", "30 m"), ("entry_angle", "15 deg")],
    run: first,
};

fn first(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let beta = Angle::from_si(v.si("entry_angle"));
    let level = first_level(metres("rod_length"), metres("radius"), beta)
        .map_err(|e| Failure::at("entry_angle", e))?;
    let (depth, setback) = (level.depth.si(), level.setback.si());
    let mut w = v.open();
    w.result("d", "depth", "l*sin(beta) + R*(1 - cos(beta))", depth, unit::M, FIRST);
    w.result("S", "setback", "l*cos(beta) + R*sin(beta)", setback, unit::M, EXACT);
    Ok(Sheet::new(&[("depth", depth), ("setback", setback)], w))
}

const RISE: Source = Source::new(
    "Najafi, Trenchless Technology Piping, p. 212, eq. 5.8, 5.10 and the equation after 5.8",
    Evidence::Published,
);

pub(super) static RISE_FROM_LEVEL: Worksheet = Worksheet {
    id: "rise-from-level",
    title: "horizontal length in which a bore rises from the level",
    inputs: &[
        Input::quantity("depth", "d", "depth of the level part", unit::M, Range::Positive),
        Input::quantity("radius", "R", "radius of the arc", unit::M, Range::Positive),
        Input::quantity("angle", "alpha", "angle at the surface", unit::DEG, STEEP),
    ],
    outputs: &[
        Output::new("arc_only", "by one arc that still rises at the end", unit::M),
        Output::new("straight_only", "along one straight", unit::M),
        Output::new("arc_then_straight", "by an arc up to the angle, then straight", unit::M),
    ],
    source: RISE,
    example: &[("depth", "3 m"), ("radius", "60 m"), ("angle", "10 deg")],
    run: rise,
};

fn rise(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let rise = rise_from_level(metres("depth"), metres("radius"), Angle::from_si(v.si("angle")))
        .map_err(|e| Failure::at(if e.quantity() == "depth" { "depth" } else { "angle" }, e))?;
    let mut w = v.open();
    let mut put = |symbol, meaning, formula, length: Length| {
        w.result(symbol, meaning, formula, length.si(), unit::M, RISE)
    };
    let arc = put("S3", "one arc", "sqrt(2*d*R)*sqrt(1 - d/(2*R))", rise.arc_only);
    let straight = put("S4", "one straight", "d/tan(alpha)", rise.straight_only);
    let formula = "R*sin(alpha) + (d - R*(1 - cos(alpha)))/tan(alpha)";
    let both = put("S5", "arc, then straight", formula, rise.arc_then_straight);
    let outputs = [("arc_only", arc), ("straight_only", straight), ("arc_then_straight", both)];
    Ok(Sheet::new(&outputs, w))
}

pub(super) static OVERBEND: Worksheet = Worksheet {
    id: "overbend",
    title: "hump over which a string is lifted into the bore",
    inputs: &[
        Input::quantity("radius", "R", "radius of the hump", unit::M, Range::Positive),
        Input::quantity("angle", "beta", "angle of the bore at its mouth", unit::DEG, STEEP),
        Input::quantity(
            "laying_length",
            "a",
            "laying length of one pipe",
            unit::M,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("length", "length of the hump", unit::M),
        Output::new("height", "height of the hump", unit::M),
        Output::new("joints", "joints that share the angle", unit::ONE),
    ],
    source: EXACT,
    example: &[("radius", "172 m"), ("angle", "10 deg"), ("laying_length", "6 m")],
    run: hump,
};

fn hump(v: &Values) -> Result<Sheet, Failure> {
    let (radius, angle) = (Length::from_si(v.si("radius")), Angle::from_si(v.si("angle")));
    let hump = overbend(radius, angle).map_err(|e| Failure::at("angle", e))?;
    let (length, height) = (hump.length.si(), hump.height.si());
    let mut w = v.open();
    w.result("s", "length", "R*beta", length, unit::M, EXACT);
    w.result("h", "height", "2*R*sin(beta/2)^2", height, unit::M, EXACT);
    let joints = w.derive("n", "joints", "s/a", unit::ONE, EXACT);
    Ok(Sheet::new(&[("length", length), ("height", height), ("joints", joints)], w))
}

const ROAD: Source = Source::new(
    "Najafi, Trenchless Technology Piping, table 8.1, p. 345; the owner's rule goes first",
    Evidence::Published,
);

pub(super) static ROAD_COVER: Worksheet = Worksheet {
    id: "road-cover",
    title: "cover under a road and its shoulder, by pipe diameter",
    inputs: &[Input::quantity("diameter", "D", "diameter of the pipe", unit::MM, Range::SIZE)],
    outputs: &[Output::new("cover", "cover under road and shoulder", unit::M)],
    source: ROAD,
    example: &[("diameter", "400 mm")],
    run: road,
};

fn road(v: &Values) -> Result<Sheet, Failure> {
    let row = required_cover_under_road(Length::from_si(v.si("diameter")))
        .map_err(|e| Failure::at("diameter", e))?;
    let cover = row.cover.si();
    let mut w = v.open();
    let procedure = format!("row of the table for a diameter {}", row.row);
    w.found("H", "cover", &procedure, cover, unit::M, ROAD);
    Ok(Sheet::new(&[("cover", cover)], w))
}
