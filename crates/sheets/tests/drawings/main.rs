//! Drawings of many designs: places are exact, no words touch, all lies on the paper.

mod designs;
mod long_section;
mod paper;
mod plan;
mod words;
