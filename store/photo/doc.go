// Package photo keeps photos as files in the data folder: each original byte for byte under the SHA-256 of
// its content, and two renditions of it to look at.
//
//	photos/3f/3f2a…        the original
//	renditions/3f/3f2a…-2048.jpg
//	renditions/3f/3f2a…-400.jpg
//
//	f := photo.New(folder)
//	kept, err := f.Add(ctx, upload)            // on disk and synced when it returns
//	file, err := f.Open(ctx, kept.SHA256, photo.Large)
//
// What is a photo is decided by decoding it, not by a name or a declared type: JPEG, PNG, WebP or HEIC, one
// still picture of at most [MostBytes] and [MostPixels]. Anything else is refused with a [*RefusedError].
//
// A rendition is a JPEG without metadata, the right way up and in the colours of sRGB: those of a wider space,
// which phones take photos in, would look dull without their profile. It can be made anew from the original,
// and is where it is missing; so a copy of the folder photos alone is a whole one.
//
// A file comes to its name whole: it is written beside it, synced, and renamed, and the folder is synced.
// What was begun and never finished, for want of power or room, is found by [Folder.List].
package photo
