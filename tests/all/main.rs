//! Everything that is tested from outside, in one program: linking twenty is slow.

mod charts;
