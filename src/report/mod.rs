//! Results in a form for people: charts now, each drawn from plain values that are ready to show.

pub mod charts;
