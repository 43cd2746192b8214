// Package beside keeps the pictures of a plan in a folder beside the plan's file, as they came and never in the file.
//
// The pictures of "Show.stageloom" lie in "Show.pictures". Each is a file named by the SHA-256 of its bytes, so that the
// same picture is kept once, one that has changed is told, and nothing that a plan says can lead out of the folder.
// Pictures are PNG and JPEG, bounded in size, and looked at before they are decoded. No file is a link, and none is
// followed. A picture is written whole or not at all.
package beside
