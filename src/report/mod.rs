//! What is told of a bay: finished values, everything decided and put in words, which the window, the command
//! line and the exporters show and do not judge again.

pub mod answer;
pub mod blocks;
pub mod captions;
pub mod check;
pub mod compare;
pub mod cutlist;
pub mod findings;
pub mod flow;
pub mod margins;
pub mod sheet;
pub mod verdict;
