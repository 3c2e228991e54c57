//! Diameters of expander, host and new string, and the ground volumes that follow from them.

use std::f64::consts::FRAC_PI_4;

use quantity::{Length, unit};
use working::Evidence;

use super::{SocketedString, expander_and_host};
use crate::published::{Method, PublishedError, range};

/// The expander's diameter.
pub const EXPANDER: Method = Method {
    name: "expander over the socket",
    document: "one manufacturer's trenchless manual, p. 48: the head is at least as wide as the new socket; \
         the clearance on top is judgement",
    evidence: Evidence::Judgement,
    validity: "strings of socketed pipes; the makers of expanders offer fixed diameters: take the next one",
};

/// Ground volumes per metre of line.
pub const GROUND_VOLUME: Method = Method {
    name: "ground volume of an expansion",
    document: "circular sections, exact; the host's fragments stay in the ground",
    evidence: Evidence::Derived,
    validity: "the inside diameter of the host counts, not its outside: only what is removed makes room",
};

/// Clearance of the expander over the socket up to DN 300, on the diameter.
// Judgement: enough for the mortar or shrink sleeve to pass freely; the bursting literature states none for sockets.
const CLEARANCE_SMALL: Length = Length::from_si(0.020);

/// Clearance above DN 300, from and to, on the diameter.
// Judgement: as above; large sockets have larger tolerances and longer stretches to close on them.
const CLEARANCE_LARGE: (Length, Length) = (Length::from_si(0.030), Length::from_si(0.050));

/// Largest nominal diameter that counts as small for [`usual_clearance`], m.
const SMALL_NOMINAL: f64 = 0.300;

/// Outside diameter of an expander that lets the sockets of the new string pass.
///
/// ```text
/// D_e = D_s + 2·s + c
/// ```
/// | symbol | meaning                                              | unit | argument          |
/// |--------|------------------------------------------------------|------|-------------------|
/// | D_s    | largest outside diameter of the socket               | m    | `socket_diameter` |
/// | s      | thickness of sleeve or cone over the socket          | m    | `sleeve`          |
/// | c      | clearance on the diameter; see [`usual_clearance`]   | m    | `clearance`       |
///
/// Valid for D_s > 0, s ≥ 0, c ≥ 0. The diameter of the barrel has no part in it: socketed pipe of the host's own size
/// is an upsize.
///
/// # Source
/// [`EXPANDER`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/expander.toml`.
pub fn expander_diameter(
    socket_diameter: Length,
    sleeve: Length,
    clearance: Length,
) -> Result<Length, PublishedError> {
    let socket = range::positive("socket diameter", socket_diameter.si(), unit::MM)?;
    let sleeve = range::not_negative("sleeve", sleeve.si(), unit::MM)?;
    let clearance = range::not_negative("clearance", clearance.si(), unit::MM)?;
    range::result("expander diameter", socket + 2.0 * sleeve + clearance).map(Length::metres)
}

/// Least and largest usual clearance of the expander over the socket, on the diameter.
///
/// 20 mm up to DN 300; 30 to 50 mm above.
///
/// # Source
/// Judgement; no published figure for socketed pipe was found. Plastic pipe has about 25 mm.
/// # Errors
/// [`PublishedError::OutOfRange`].
pub fn usual_clearance(nominal_diameter: Length) -> Result<(Length, Length), PublishedError> {
    let nominal = range::positive("nominal diameter", nominal_diameter.si(), unit::MM)?;
    // 12 in is DN 300.
    Ok(if nominal < SMALL_NOMINAL + 0.010 {
        (CLEARANCE_SMALL, CLEARANCE_SMALL)
    } else {
        CLEARANCE_LARGE
    })
}

/// How much the hole grows, on the diameter: D_e − d_i.
///
/// The measure of the distance rules ([`super::ten_times_rule`]).
///
/// # Source
/// Najafi, Trenchless Technology Piping, p. 232, fig. 6.2.
/// # Errors
/// [`PublishedError::OutOfRange`] for an expander smaller than the host's bore.
pub fn expansion_measure(expander: Length, host_inside: Length) -> Result<Length, PublishedError> {
    let (expander, host) = expander_and_host(expander, host_inside)?;
    Ok(Length::metres(expander - host))
}

/// Gap between expander and barrel of the new string on one side: (D_e − D_n)/2.
///
/// # Source
/// Najafi, Trenchless Technology Piping, p. 232, fig. 6.2.
/// # Errors
/// [`PublishedError::OutOfRange`] for an expander smaller than the barrel.
pub fn overcut(expander: Length, barrel: Length) -> Result<Length, PublishedError> {
    let barrel = range::positive("barrel diameter", barrel.si(), unit::MM)?;
    let expander = range::at_least("expander diameter", expander.si(), barrel, unit::MM)?;
    Ok(Length::metres((expander - barrel) / 2.0))
}

/// Ground that moves aside while the head passes, m³ per metre of line.
///
/// ```text
/// V_e = π/4·(D_e² − d_i²)
/// ```
/// | symbol | meaning                        | unit | argument      |
/// |--------|--------------------------------|------|---------------|
/// | D_e    | outside diameter of expander   | m    | `expander`    |
/// | d_i    | inside diameter of the host    | m    | `host_inside` |
///
/// Valid for D_e ≥ d_i > 0.
///
/// # Source
/// [`GROUND_VOLUME`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/ground-volume.toml`.
pub fn displaced_volume(expander: Length, host_inside: Length) -> Result<f64, PublishedError> {
    let (expander, host) = expander_and_host(expander, host_inside)?;
    // The difference of the squares as a product keeps its digits for a small expansion.
    range::result("displaced volume", FRAC_PI_4 * (expander - host) * (expander + host))
}

/// Ground that stays displaced once the gap around the string has closed, m³ per metre of line.
///
/// ```text
/// V_r = π/4·( [D_n²·(L_p − L_s) + D_s²·L_s]/L_p − d_i² )
/// ```
/// | symbol   | meaning                              | unit | argument      |
/// |----------|--------------------------------------|------|---------------|
/// | D_n, D_s | diameters of barrel and socket       | m    | `string`      |
/// | L_s, L_p | bearing length of socket, laying length | m | `string`      |
/// | d_i      | inside diameter of the host          | m    | `host_inside` |
///
/// Negative where the new string has less section than the old bore: the ground then settles below its old level.
/// With L_s = 0 the sockets are left out.
///
/// # Source
/// [`GROUND_VOLUME`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/residual-volume.toml`.
pub fn residual_volume(
    string: &SocketedString,
    host_inside: Length,
) -> Result<f64, PublishedError> {
    let s = string.checked()?;
    let host = range::positive("host inside diameter", host_inside.si(), unit::MM)?;
    let share = s.socket_length / s.laying_length;
    let section = s.barrel * s.barrel * (1.0 - share) + s.socket * s.socket * share;
    range::result("residual volume", FRAC_PI_4 * (section - host * host))
}

/// Ground that comes back as the gap around the string closes, V_e − V_r, m³ per metre of line.
///
/// # Source
/// [`GROUND_VOLUME`].
/// # Errors
/// [`PublishedError::OutOfRange`], for an expander smaller than the socket as well.
/// # Checked by
/// `cases/burst/residual-volume.toml`.
pub fn closing_volume(
    expander: Length,
    string: &SocketedString,
    host_inside: Length,
) -> Result<f64, PublishedError> {
    let socket = string.checked()?.socket;
    range::at_least("expander diameter", expander.si(), socket, unit::MM)?;
    let displaced = displaced_volume(expander, host_inside)?;
    range::result("closing volume", displaced - residual_volume(string, host_inside)?)
}
