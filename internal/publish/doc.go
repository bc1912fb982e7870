// Package publish makes documents of a proven sock.
//
// [Make] goes the whole way: it reads a design file, grades it, builds and completes the
// pattern ([Compose] adds the facts a knitter needs before the first stitch), proves it from
// its own printed words, and renders the editions. Only a proven pattern becomes a [Book],
// and [Book.WriteTo] puts its files in place, each whole at every moment.
package publish
