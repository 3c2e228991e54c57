//! Cross section, site layout, and the drawings of a main that is burst.

pub use self::cross_section::cross_section;
pub use self::renewal_plan::renewal_plan;
pub use self::renewal_section::renewal_section;
pub use self::site_layout::site_layout;

mod burst_section;
mod burst_site;
mod cross_section;
mod drilling_site;
mod joint;
mod kit;
mod renewal_band;
mod renewal_plan;
mod renewal_section;
mod site_layout;
mod street;

#[cfg(test)]
mod tests;
