//! Mechanics against the outside: published shares, an independent solution, wrong poses, statures.
//! Never compares the model with itself: every number it is held to names its source.
//!
//! `cargo test --test mechanics residuals -- --nocapture` prints the residual table.

#[path = "mechanics/everyone.rs"]
mod everyone;
#[path = "mechanics/facts.rs"]
mod facts;
#[path = "mechanics/forearms.rs"]
mod forearms;
#[path = "mechanics/joints.rs"]
mod joints;
#[path = "mechanics/kit.rs"]
mod kit;
#[path = "mechanics/ladders.rs"]
mod ladders;
#[path = "mechanics/library.rs"]
mod library;
#[path = "mechanics/pulls.rs"]
mod pulls;
#[path = "mechanics/push_only.rs"]
mod push_only;
#[path = "mechanics/published.rs"]
mod published;
#[path = "mechanics/statics.rs"]
mod statics;
#[path = "mechanics/whole.rs"]
mod whole;
#[path = "mechanics/world.rs"]
mod world;
#[path = "mechanics/wrong.rs"]
mod wrong;
