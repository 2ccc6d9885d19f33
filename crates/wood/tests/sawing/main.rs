//! Layouts of sheets: always sawable, and as good as they say.

mod jobs;
mod valid;
