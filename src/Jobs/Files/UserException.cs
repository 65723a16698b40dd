namespace Harkbook.Jobs.Files;

/// <summary>Thrown by commands for a file, a folder or the disk that a user can mend; the message says what is wrong, where, and what to do.</summary>
public class UserException(string message) : Exception(message);
