package preview

import (
	"path"
	"strings"
)

// mediaTypes are the types of what a site holds, by the ending of the name. They
// are written out here because package mime reads them from the system, where they
// differ and the younger ones are missing.
//
// Sources: IANA, media types registry (from memory); W3C Web Application Manifest
// for .webmanifest; W3C WebVTT for .vtt; W3C EPUB 3.3 for .epub; RFC 4287 for .atom.
var mediaTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".xml":         "application/xml",
	".atom":        "application/atom+xml",
	".txt":         "text/plain; charset=utf-8",
	".csv":         "text/csv; charset=utf-8",
	".vtt":         "text/vtt; charset=utf-8",
	".srt":         "text/plain; charset=utf-8",
	".pdf":         "application/pdf",
	".epub":        "application/epub+zip",
	".zip":         "application/zip",
	".png":         "image/png",
	".jpg":         "image/jpeg",
	".jpeg":        "image/jpeg",
	".gif":         "image/gif",
	".webp":        "image/webp",
	".avif":        "image/avif",
	".svg":         "image/svg+xml",
	".ico":         "image/vnd.microsoft.icon",
	".woff2":       "font/woff2",
	".mp4":         "video/mp4",
	".m4v":         "video/mp4",
	".webm":        "video/webm",
	".ogv":         "video/ogg",
	".mov":         "video/quicktime",
	".mp3":         "audio/mpeg",
	".m4a":         "audio/mp4",
	".aac":         "audio/aac",
	".oga":         "audio/ogg",
	".ogg":         "audio/ogg",
	".opus":        "audio/ogg",
	".flac":        "audio/flac",
	".wav":         "audio/wav",
}

// mediaType returns the type of a file; a browser offers to keep what has none.
func mediaType(name string) string {
	if t, ok := mediaTypes[strings.ToLower(path.Ext(name))]; ok {
		return t
	}
	return "application/octet-stream"
}
