//! Layouts of sheets: always sawable, and as good as they say.

mod brute;
mod jobs;
mod published;
mod solver;
mod table;
mod valid;
