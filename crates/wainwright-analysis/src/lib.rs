//! From the project to one assessment with its working.
