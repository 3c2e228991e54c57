//! Drawings of many designs: places are exact, no words touch, all lies on the paper.

#![allow(clippy::unwrap_used, reason = "helpers of tests may panic")]

mod designs;
mod long_section;
mod paper;
mod plan;
mod words;
