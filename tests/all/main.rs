<<<<<<< HEAD
//! All integration tests in one binary. Start with the module named after what is tested.

mod gallery;
mod job;
=======
//! Everything that is tested from outside, in one program: linking twenty is slow.

mod charts;
>>>>>>> 8b0ca83d871d55af63bfe181d36fc877f7f5f4b4
