//! The command line: what it prints for people.
//!
//! Nothing else prints. Start at [`messages`].

pub mod messages;
