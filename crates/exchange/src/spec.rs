//! What the numbers of ground data are: their kind, the range that is plausible, and what a missing unit means.

use quantity::{Kind, Unit, show, significant, unit};

/// What a number of a column is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spec {
    /// The unit in which it is shown; its kind is the kind of the number.
    pub(crate) unit: Unit,
    /// Smallest value in SI.
    pub(crate) low: f64,
    /// Largest value in SI.
    pub(crate) high: f64,
    /// What it means that the column names no unit.
    pub(crate) without_unit: WithoutUnit,
}

/// What it means that a column names no unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum WithoutUnit {
    /// An error: nobody may guess it.
    Refused,
    /// The format says that it is the SI unit.
    IsSi,
    /// The number is a count, and whatever stands as its unit is a remark.
    IsCount,
}

const MEGAPASCAL: f64 = 1e6;

/// A depth below the ground.
///
/// Judgement: borings for a crossing end far above 1000 m; a depth in millimetres under the unit m is found by it.
pub(crate) const DEPTH: Spec = length(0.0, 1000.0);
/// A depth to water, which stands above the ground where it is artesian.
///
/// Judgement: no piezometer reads a head of more than 100 m above the ground.
pub(crate) const WATER_DEPTH: Spec = length(-100.0, 1000.0);
/// A level above datum.
///
/// Judgement: every point of the Earth's surface, and a datum near mean sea level.
pub(crate) const LEVEL: Spec = length(-12_000.0, 9_000.0);
/// An easting or a northing.
///
/// Judgement: eastings with the number of their zone in front have eight digits.
pub(crate) const COORDINATE: Spec = length(-1e8, 1e8);
/// A chainage.
///
/// Judgement: national chainages count from a far zero; none exceeds the girth of the Earth.
pub(crate) const CHAINAGE: Spec = length(-4.1e7, 4.1e7);
/// An offset from the line.
///
/// Judgement: a boring further away than this tells nothing of a crossing.
pub(crate) const OFFSET: Spec = length(-100_000.0, 100_000.0);
/// Blows of a standard penetration test.
///
/// Judgement: a drive is stopped long before.
pub(crate) const BLOWS: Spec =
    Spec { unit: unit::ONE, low: 0.0, high: 1000.0, without_unit: WithoutUnit::IsCount };
/// Share of the theoretical energy that reaches the rods.
///
/// Judgement: hammers are measured at 30 % to 100 %; a little more is an error of measurement.
pub(crate) const ENERGY: Spec =
    Spec { unit: unit::PERCENT, low: 0.1, high: 1.2, without_unit: WithoutUnit::Refused };
/// A cone resistance; slightly negative where the zero reading has drifted.
///
/// Judgement: load cells of cones end at 150 MPa; kilopascals under the unit MPa are found by it.
pub(crate) const CONE_RESISTANCE: Spec = pressure(-200.0 * MEGAPASCAL, 200.0 * MEGAPASCAL);
/// A sleeve friction.
///
/// Judgement: sleeves are built for up to 2 MPa.
pub(crate) const SLEEVE_FRICTION: Spec = pressure(-10.0 * MEGAPASCAL, 10.0 * MEGAPASCAL);
/// A pore pressure, with suction.
///
/// Judgement: transducers of cones are built for up to 20 MPa.
pub(crate) const PORE_PRESSURE: Spec = pressure(-MEGAPASCAL, 50.0 * MEGAPASCAL);

const fn length(low: f64, high: f64) -> Spec {
    Spec { unit: unit::M, low, high, without_unit: WithoutUnit::Refused }
}

const fn pressure(low: f64, high: f64) -> Spec {
    Spec { unit: unit::MPA, low, high, without_unit: WithoutUnit::Refused }
}

impl Spec {
    /// The same, where the format says that the SI unit is meant without one.
    pub(crate) const fn bare(self) -> Self {
        Self { without_unit: WithoutUnit::IsSi, ..self }
    }

    /// Whether a value in SI lies in the range; nothing that is not finite does.
    pub(crate) fn holds(&self, si: f64) -> bool {
        (self.low..=self.high).contains(&si)
    }

    /// A value in SI as text.
    pub(crate) fn show(&self, si: f64) -> String {
        if self.unit == unit::ONE { significant(si, 4) } else { show(si, self.unit) }
    }

    /// The range as text.
    pub(crate) fn range(&self) -> String {
        format!("{} to {}", self.show(self.low), self.show(self.high))
    }

    /// How many SI units one of the named unit is; nothing for a unit that is not known.
    pub(crate) fn factor(&self, symbol: &str) -> Option<f64> {
        factor(symbol, self.unit.kind())
    }

    /// The units that a column may name.
    pub(crate) fn units(&self) -> String {
        let kind = self.unit.kind();
        let own = kind.units().map(Unit::symbol).filter(|symbol| !symbol.is_empty());
        let trade = TRADE.iter().filter(|t| t.1 == kind).map(|t| t.0);
        own.chain(trade).collect::<Vec<_>>().join(", ")
    }
}

/// Units of ground investigations beside those of `quantity`. Tons per square foot are not among them: files do not
/// say which ton they mean.
///
/// Published: unit list of the AGS 4.1.1 standard dictionary (names). From memory: 1 kgf = 9.806 65 N exactly,
/// ISO 80000-4.
const TRADE: &[(&str, Kind, f64)] = &[
    ("MN/m2", Kind::Pressure, 1e6),
    ("kg/cm2", Kind::Pressure, 98_066.5),
    ("kgf/cm2", Kind::Pressure, 98_066.5),
];

fn factor(symbol: &str, kind: Kind) -> Option<f64> {
    let wanted = if symbol == "MN/m²" { "MN/m2" } else { symbol };
    Unit::find(wanted, kind)
        .map(|unit| unit.to_si(1.0))
        .or_else(|| TRADE.iter().find(|(name, of, _)| *name == wanted && *of == kind).map(|t| t.2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_of_the_trade_convert_to_si() {
        for (symbol, si) in
            [("m", 1.0), ("mm", 1e-3), ("cm", 1e-2), ("ft", 0.3048), ("in", 0.0254), ("km", 1e3)]
        {
            assert_eq!(DEPTH.factor(symbol), Some(si), "{symbol}");
        }
        for (symbol, si) in [
            ("MPa", 1e6),
            ("kPa", 1e3),
            ("MN/m2", 1e6),
            ("MN/m²", 1e6),
            ("kN/m2", 1e3),
            ("bar", 1e5),
            ("kg/cm2", 98_066.5),
        ] {
            assert_eq!(CONE_RESISTANCE.factor(symbol), Some(si), "{symbol}");
        }
        assert_eq!(ENERGY.factor("%"), Some(0.01));
        for (spec, symbol) in
            [(DEPTH, "MPa"), (DEPTH, "yd"), (CONE_RESISTANCE, "tsf"), (ENERGY, "m")]
        {
            assert_eq!(spec.factor(symbol), None, "{symbol}");
        }
    }

    #[test]
    fn ranges_hold_their_ends_and_nothing_that_is_not_finite() {
        assert!(DEPTH.holds(0.0) && DEPTH.holds(1000.0) && !DEPTH.holds(-0.01));
        assert!(![f64::NAN, f64::INFINITY, f64::NEG_INFINITY].iter().any(|x| COORDINATE.holds(*x)));
        assert_eq!(DEPTH.range(), "0 m to 1000 m");
        assert_eq!(ENERGY.range(), "10 % to 120 %");
        assert!(CONE_RESISTANCE.units().contains("MN/m2") && DEPTH.units().starts_with("m, mm"));
    }
}
