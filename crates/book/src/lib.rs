//! Calculation book and drawings as PDF.
//!
//! Typesetting needs many crates of others: all of them stay behind this one.
