//! Small circuits against every order there is.
