//! Everything that is tested from outside, in one program: linking twenty is slow. Start with the
//! module named after what is tested.

mod charts;
mod gallery;
mod job;
mod oracle;
