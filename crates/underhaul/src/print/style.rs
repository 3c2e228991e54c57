//! Colours and weights. Each repeats what a word or a sign beside it says, so that nothing is lost without them.

use anstyle::{AnsiColor, Style};

/// No style.
pub(crate) const PLAIN: Style = Style::new();
/// Headings.
pub(crate) const HEADING: Style = Style::new().bold();
/// Names that can be typed.
pub(crate) const NAME: Style = AnsiColor::Cyan.on_default();
/// Met.
pub(crate) const GOOD: Style = AnsiColor::Green.on_default();
/// Met, but narrowly; or to be looked at.
pub(crate) const CLOSE: Style = AnsiColor::Yellow.on_default();
/// Not met; errors.
pub(crate) const BAD: Style = AnsiColor::Red.on_default().bold();
/// What a reader may skip: sources, formulas.
pub(crate) const QUIET: Style = Style::new().dimmed();
